// What kind of machine a name speaks of, by the trade's own words for it: what goes on the road, what lifts, what is driven in a workshop, what floats.
// Invariant: words only; a name that says nothing gives no kind, and nothing is made of it.

export interface KindOfMachine {
  /** It goes on the road or in a field, on wheels. */
  readonly road: boolean;
  readonly lifts: boolean;
  /** A machine tool, or another with guards over what turns. */
  readonly driven: boolean;
  readonly boat: boolean;
  /** The public sits in it or hangs from it: what swings, turns round or is hauled on a rope. */
  readonly ride: boolean;
  readonly flies: boolean;
  readonly rails: boolean;
}

/** `names`: what the sheet calls the machine and the job. `parts`: what it calls the parts, read where the names say nothing. */
export function kindOfMachine(names: string, parts: string): KindOfMachine {
  // The elevator of what flies lifts nothing else.
  const lifts = lifting.test(flying.test(names) ? names.replace(/\belevators?\b/giu, "") : names);
  const driven = workshop.test(names);
  const boat = floating.test(names);
  const [ride, flies, rails] = [rides.test(names), flying.test(names), onRails.test(names)];
  const named = lifts || driven || boat || ride || flies || rails || standing.test(names);
  return { lifts, driven, boat, ride, flies, rails, road: !rails && (vehicle.test(names) || (!named && vehicleParts.test(parts))) };
}

const vehicle =
  /\b(cars?|saloon|estate|coup[e\u00e9]|convertible|tourer|roadster|vans?|lorry|lorries|trucks?|bus|coach|omnibus|motor ?cycle|motor ?bike|sidecar|scooter|tractor|trailer|caravan|pick-?up|ambulance|fire engine|horsebox|traction engine|steam roller|road roller|steam wagon)\b/iu;
const lifting =
  /\b(hoist|crane|winch|windlass|capstan|derrick|chain block|lifting (?:tackle|gear|beam)|gantry|jib|telpher|davit|fork[- ]?lift|(?:goods|passenger|service|platform|scissor) lift|elevator)\b/iu;
const flying = /\b(gliders?|sailplane|aeroplane|airplane|aircraft|biplane|monoplane|autogyro|gyroplane|microlight)\b/iu;
const workshop =
  /\b(lathes?|headstock|mill|milling machine|drill(?:ing)?|grinder|grinding machine|shaper|shaping machine|planer|planing machine|saw|press|borer|boring machine|jig borer|thicknesser|morticer|guillotine|compressor|conveyor|mixer|baler|thresher|loom)\b/iu;
const floating =
  /\b((?<!swing[- ])boat(?! swings?\b)|launch|yacht|vessel|ship|trawler|barge|dinghy|narrowboat|marine|stern(?: gear|gear|tube| tube)?|outboard|inboard)\b/iu;
const rides =
  /\b(swing[- ]?boats?|boat swings?|carousels?|gallopers?|merry-go-rounds?|(?:children's|fairground|steam) roundabouts?|(?:big|ferris|observation) wheel|chair-?o-?planes?|fairground|dodgems?|ghost train|roller[- ]?coaster|switchback|helter[- ]?skelter|playground|cable ?cars?|chair ?lift|ski lift|funicular|cliff lift)\b/iu;
const onRails =
  /\b(loco(?:motive)?s?|shunter|rail ?cars?|rail ?bus|tram(?:s|car|way)?|(?:railway|tramway|narrow[- ]gauge) (?:carriage|coach|wagon|van|trolley)|inspection trolley|platelayers'? trolley|brake van|pump trolley)\b/iu;
const standing = /\b(stationary|pump|generator|gas engine|oil engine|beam engine|steam engine|turbine|loco|locomotive|railway|tramway)\b/iu;
const vehicleParts =
  /road wheel|wheel nut|half.?shaft|stub axle|king.?pin|track rod|drag link|steering|back.?plate|wheel cylinder|brake (?:drum|shoe|disc|pipe|hose)|\baxle\b|suspension|road spring|\b(?:wheel )?hub\b|^(?:a )?wheels?$|^brakes?$/imu;
