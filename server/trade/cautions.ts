// The cautions that work of this kind calls for, in our words, each with where it comes from, British sources first.
// Invariant: reminders only. They stand beside the maker's data, local rules and licensed people, never in their place.

export interface Caution {
  /** `own`: written in the sheet itself. */
  readonly about:
    | "own"
    | "mains"
    | "support"
    | "held"
    | "jack"
    | "lifting"
    | "rotating"
    | "spring"
    | "asbestos"
    | "gaskets"
    | "fuel"
    | "jet"
    | "hot"
    | "brake-fluid"
    | "oil"
    | "solvent"
    | "eyes"
    | "heat"
    | "single-use"
    | "licence"
    | "examined";
  readonly words: string;
  readonly source: string;
}

/** In the order in which they are shown: what kills first. */
export const cautions: readonly Caution[] = [
  {
    about: "mains",
    words:
      "Isolate at the switch, lock it off and keep the key; prove dead at the terminals before hands go in. A drive or a capacitor holds its charge after that. Wiring is for a competent person.",
    source: "UK HSE HSG85, Electricity at work: safe working practices; wording from memory",
  },
  {
    about: "support",
    words:
      "Stand the machine on axle stands; never rely on a jack alone; chock the wheels, brake on. Most deaths in vehicle repair come from being trapped under a badly supported vehicle.",
    source: "UK HSE, motor vehicle repair; ACCC Product Safety Australia",
  },
  {
    about: "held",
    words: "Once raised, block it, crib it or hold it otherwise at once. Nobody works under a load that only a jack, a hoist or a crane holds.",
    source: "UK HSE, LOLER 1998 (L113), wording from memory; US OSHA 29 CFR 1926.305",
  },
  {
    about: "jack",
    words: "Keep inside the load marked on the jack, its base on firm ground or blocked.",
    source: "US OSHA 29 CFR 1910.244 and 1926.305; Washington WAC 296-807",
  },
  {
    about: "lifting",
    words:
      "Crane, hoist, slings and shackles: inside their marked load, looked over before the lift, slung so that the load can't turn or slip; nobody under it.",
    source: "UK HSE, LOLER 1998 (L113); wording from memory",
  },
  {
    about: "rotating",
    words:
      "Guards back and tried before it runs under power. First turn it by hand. No gloves, rings, loose cuffs or long hair near what turns; clear the tools, the key out of the chuck.",
    source: "UK HSE, PUWER 1998 regulation 11 (L22); wording from memory",
  },
  {
    about: "spring",
    words: "A compressed or wound spring stores energy: use a compressor rated for it, unload it before anything is undone, keep out of its line.",
    source: "UK HSE HSG261; common practice; wording from memory",
  },
  {
    about: "asbestos",
    words:
      "Treat old brake and clutch linings as asbestos: no dry brushing, no compressed air; wet rags, a wet or low-pressure wash, or an enclosure with a HEPA filter; bag the dust and the rags as asbestos waste. A worn lining does not show whether it is asbestos.",
    source: "UK HSE, motor vehicle repair: asbestos; US OSHA SHIB 07-26-2006, 29 CFR 1910.1001(f)(3) and Appendix F; EPA brochure of 2007",
  },
  {
    about: "gaskets",
    words: "Treat an old gasket or packing as asbestos: wet it, lift it off whole, scrape it wet; no wire brush, no compressed air. Bag it as asbestos waste.",
    source: "UK HSE, motor vehicle repair: asbestos (gaskets named there); US OSHA SHIB 07-26-2006",
  },
  {
    about: "fuel",
    words:
      "Petrol vapour is heavier than air, lies in pits and bilges and lights from a spark. Drain fuel outdoors into a closed metal can; no flame, no lead lamp, battery off first; look for leaks before it is started.",
    source: "UK HSE INDG331, Safe use of petrol in garages; wording from memory",
  },
  {
    about: "jet",
    words:
      "A jet of diesel or hydraulic oil goes through skin and gloves: let the pressure off before a union is slackened, never feel for a leak by hand, keep away from an injector on test. Whoever is hit goes to hospital at once, however small it looks.",
    source: "common practice of fuel injection and hydraulics; UK HSE on injection injuries; wording from memory",
  },
  {
    about: "hot",
    words:
      "Hot parts look like cold ones. Let an engine and its coolant cool before a cap, a plug or a union is opened; gloves and tongs for what was heated to fit, and a word chalked on it.",
    source: "UK HSE HSG261; common practice; wording from memory",
  },
  {
    about: "brake-fluid",
    words:
      "Brake fluid: the kind that the maker names, from a sealed can, never used again; it takes up water from the air. It burns eyes and skin and lifts paint: wash it off at once.",
    source: "common maker practice; label text of US 49 CFR 571.116; wording from memory",
  },
  {
    about: "oil",
    words:
      "Keep used oil off the skin. Into its own closed, labelled container, unmixed with solvent, brake cleaner or coolant; hand it in for recycling, never to drain or soil.",
    source: "UK HSE and councils' oil banks, wording from memory; US EPA 40 CFR 279",
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
    source: "UK HSE HSG261; US OSHA 29 CFR 1910.133; wording from memory",
  },
  {
    about: "heat",
    words:
      "Do not warm a part with a white-metal lining near the heat where it melts (about 223 to 248 \u00b0C; some soften badly already at 100 \u00b0C). Metal and plating with lead or cadmium give off poisonous fume.",
    source: "ASTM B23; fume advice from memory",
  },
  { about: "single-use", words: "Split pins, tab washers and lock wire are used once: fit new.", source: "common maker practice" },
  {
    about: "licence",
    words:
      "Check your local rule: brake, steering and suspension work done for payment may be kept for certified people. Have it inspected by a licensed person before road use.",
    source:
      "UK MOT test before the road where one is due, from memory; Ontario (compulsory trade), Michigan MCL 257.1304, New South Wales; rules differ by place",
  },
  {
    about: "examined",
    words: "Lifting gear that was apart is thoroughly examined by a competent person, and tested where that person asks for it, before it lifts again.",
    source: "UK LOLER 1998 regulation 9; wording from memory",
  },
];
