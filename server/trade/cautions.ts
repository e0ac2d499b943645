// The cautions that work of this kind calls for, in our words, each with where it comes from.
// Invariant: reminders only. They stand beside the maker's data, local rules and licensed people, never in their place.

export interface Caution {
  readonly about: "support" | "jack" | "asbestos" | "oil" | "solvent" | "eyes" | "spring" | "licence" | "heat" | "single-use";
  readonly words: string;
  readonly source: string;
}

export const cautions: readonly Caution[] = [
  {
    about: "support",
    words:
      "Stand the machine on axle stands; never rely on a jack alone; chock the wheels, brake on. Most deaths in vehicle repair come from being trapped under a badly supported vehicle.",
    source: "UK HSE, motor vehicle repair; ACCC Product Safety Australia",
  },
  {
    about: "jack",
    words:
      "Keep inside the load marked on the jack, its base on firm ground or blocked. Once raised, the load is cribbed, blocked or otherwise held at once; nobody works under a load that only a jack holds.",
    source: "US OSHA 29 CFR 1910.244 and 1926.305; Washington WAC 296-807",
  },
  {
    about: "asbestos",
    words:
      "Treat old brake and clutch linings and old gaskets as asbestos: no dry brushing, no compressed air; wet or low-pressure wash, or an enclosure with a HEPA filter; bag the waste. A worn lining does not show whether it is asbestos.",
    source: "US OSHA SHIB 07-26-2006; 29 CFR 1910.1001(f)(3) and Appendix F; EPA brochure of 2007",
  },
  {
    about: "oil",
    words:
      "Keep used oil in its own closed, labelled container, unmixed with solvent, brake cleaner or coolant; hand it in for recycling, never to drain or soil.",
    source: "US EPA 40 CFR 279; municipal advice",
  },
  {
    about: "solvent",
    words:
      "Chlorinated solvent, as in many brake cleaners, can form phosgene near welding, flame or very hot metal: keep it away, let parts dry, ventilate. Other brake cleaners are flammable.",
    source: "US OSHA, welding hazards, as quoted",
  },
  {
    about: "eyes",
    words: "Wear eye protection when driving out pins, splitting nuts, grinding, using air or solvent, and when a spring or circlip is under load.",
    source: "US OSHA 29 CFR 1910.133; UK HSE HSG261; wording from memory",
  },
  {
    about: "spring",
    words: "A compressed or wound spring stores energy: use a compressor rated for it, unload it before anything is undone, keep out of its line.",
    source: "UK HSE HSG261; common practice; wording from memory",
  },
  {
    about: "licence",
    words:
      "Check your local rule: brake, steering and suspension work done for payment may be kept for certified people. Have it inspected by a licensed person before road use.",
    source: "Ontario (compulsory trade), Michigan MCL 257.1304, New South Wales; rules differ by place",
  },
  {
    about: "heat",
    words:
      "Do not warm a part with a white-metal lining near the heat where it melts (about 223 to 248 \u00b0C; some soften badly already at 100 \u00b0C). Metal and plating with lead or cadmium give off poisonous fume.",
    source: "ASTM B23; fume advice from memory",
  },
  { about: "single-use", words: "Split pins, tab washers and lock wire are used once: fit new.", source: "common maker practice" },
];
