// Writes a story as a practitioner writes a job sheet, and keeps on which line each thing and each act stands.
import type { Act, Declared, Entry, Limit, Quantity, Story } from "./things.ts";

export interface Page {
  readonly text: string;
  /** Lines, from 1, by the id of an act or entry. */
  readonly lines: ReadonlyMap<number, readonly number[]>;
  readonly declared: ReadonlyMap<string, readonly number[]>;
  readonly release: number;
}

export function write(story: Story): Page {
  const out: string[] = [];
  const lines = new Map<number, number[]>();
  const declared = new Map<string, number[]>();
  const note = (id: number) => lines.set(id, [...(lines.get(id) ?? []), out.length]);
  const indent = " ".repeat(story.manner.indent ?? 2);

  out.push(
    `sheet "${story.title}"`,
    `${indent}machine "Harrow & Pell, 1951"`,
    `${indent}by "${story.by}"`,
    `${indent}opened ${date(0)}`,
    `${indent}currency GBP`,
    "",
  );
  for (const [kind, names] of Object.entries(story.places)) out.push(`places ${kind} ${names.join(", ")}`);
  if (story.entries.some((it) => it.is === "order")) out.push("", "supplier penn", `${indent}currency GBP`, `${indent}lead 4 d`);
  for (const thing of story.things) {
    out.push("");
    const [head = "", ...details] = declaration(thing);
    out.push(head);
    declared.set(thing.name, [out.length]);
    for (const line of details) {
      out.push(indent + line);
      declared.get(thing.name)?.push(out.length);
    }
  }

  let day = -1;
  for (const entry of story.entries) {
    out.push("");
    if (entry.day !== day && !entry.dated && story.manner.datesOnLines !== true) {
      out.push(`day ${date(entry.day)}`);
      note(entry.id);
      out.push("");
      day = entry.day;
    }
    if (story.manner.comments && entry.is === "step") out.push(`# ---- ${entry.title.toLowerCase()}`);
    const stamp = entry.dated || story.manner.datesOnLines === true ? ` ${date(entry.day)}` : "";
    const [head = "", ...details] = entryLines(entry, stamp);
    out.push(head);
    note(entry.id);
    for (const it of details) {
      out.push(indent + it.text);
      note(it.id ?? entry.id);
      if (it.id !== undefined) note(entry.id);
    }
  }

  out.push("", `release by "${story.by}" ${date(story.releaseDay)}`);
  const release = out.length;
  for (const it of story.tests) out.push(`${indent}test "${it}"`);
  return { text: `${out.join("\n")}\n`, lines, declared, release };
}

/** Days of a job that began on the first of March 2026. */
export function date(day: number): string {
  return new Date(Date.UTC(2026, 2, 1 + day)).toISOString().slice(0, 10);
}

export const figure = (it: Quantity): string => `${it.n.toFixed(it.dec)} ${it.unit}`;

function declaration(it: Declared): string[] {
  const out = [`${it.is} ${it.name} "${it.title}"`];
  if (it.each !== undefined) out.push(`each ${it.each}${it.per === 1 ? "" : ` ${it.per}`}`);
  else if (it.per !== 1) out.push(`qty ${it.per}`);
  const name = (list: readonly string[]) => list.join(", ");
  if (it.is === "part") {
    if (it.heldBy.length > 0) out.push(`held by ${name(it.heldBy)}`);
    if (it.behind.length > 0) out.push(`behind ${name(it.behind)}`);
    if (it.renew !== undefined) out.push(it.renew.length === 0 ? "renew" : `renew with ${name(it.renew)}`);
    if (it.inPairs) out.push("renew in pairs");
    if (it.matched !== undefined) out.push(`matched with ${it.matched}`);
    if (it.keepsPlace) out.push("keeps its place");
    if (it.fits !== undefined) out.push(`fits "${it.fits}"`);
    if (it.material !== undefined) out.push(`material ${it.material}`);
    if (it.mass !== undefined) out.push(`mass ${it.mass} kg`);
  }
  if (it.is === "fastener") {
    if (it.thread !== undefined) out.push(`thread ${it.thread}`);
    for (const [place, thread] of Object.entries(it.threadAt ?? {})) out.push(`thread ${thread} at ${place}`);
    if (it.torque === "none") out.push("torque none");
    else if (it.torque === "feel") out.push('torque by feel "nipped evenly"');
    else if (it.torque?.turn !== undefined) out.push(`torque ${it.torque.lo} ${it.torque.unit} + ${it.torque.turn} deg`);
    else if (it.torque !== undefined) out.push(`torque ${it.torque.lo} .. ${it.torque.hi} ${it.torque.unit}`);
    if (it.lock !== undefined) out.push(`locked by ${it.lock.text}${it.lock.serves === undefined ? "" : ` for ${it.lock.serves}`}`);
  }
  if (it.is === "fluid") {
    out.push(`in ${name(it.in)}`, `capacity ${figure(it.capacity)}`);
    if (it.bleed) out.push("bleed");
  }
  if (it.is === "limit") out.push(...ranges(it));
  if (it.is === "check" && it.of.length > 0) out.push(`of ${name(it.of)}`);
  if (it.is === "gauge") {
    if (it.uncertainty !== undefined) out.push(`uncertainty ${figure(it.uncertainty)}`);
    if (it.range !== undefined) out.push(`range ${it.range.lo} .. ${it.range.hi} ${it.range.unit}`);
    if (it.due !== undefined) out.push(`checked ${yearBefore(it.due)} every 12 months`);
  }
  if (it.is === "hazard") out.push(`safe before ${name(it.before)}`, `restore after ${name(it.after)}`, `caution "${it.caution}"`);
  if (it.is === "shims") out.push(`have ${it.have}`, `fitted ${it.fitted}`);
  if (it.critical !== undefined) out.push(`critical "${it.critical}"`);
  if (it.is === "limit" || it.is === "fastener") out.push('source "Workshop manual, section C"');
  return [...out, ...(it.more ?? [])];
}

function ranges(it: Limit): string[] {
  const out: string[] = [];
  const f = (n: number) => n.toFixed(it.dec);
  if (it.less !== undefined) out.push(`= ${it.less[0]} - ${it.less[1]}`);
  if (it.fresh !== undefined) out.push(`new ${f(it.fresh[0])} .. ${f(it.fresh[1])} ${it.unit}`);
  if (it.worn?.min !== undefined) out.push(`worn min ${f(it.worn.min)} ${it.unit}`);
  if (it.worn?.max !== undefined) out.push(`worn max ${f(it.worn.max)} ${it.unit}`);
  if (it.set !== undefined) out.push(`set ${f(it.set.lo)} .. ${f(it.set.hi)} ${it.unit} by ${it.set.by.join(", ")}`);
  if (it.readAt !== undefined) out.push(`read at ${it.readAt.join(", ")}`);
  if (it.taper !== undefined) out.push(`taper max ${f(it.taper)} ${it.unit}`);
  if (it.of.length > 0) out.push(`of ${it.of.join(", ")}`);
  return out;
}

function yearBefore(due: number): string {
  const [year = "", ...rest] = date(due).split("-");
  return [String(Number(year) - 1), ...rest].join("-");
}

function entryLines(entry: Entry, stamp: string): [string, ...{ text: string; id?: number }[]] {
  const more = (entry.more ?? []).map((text) => ({ text }));
  const place = "place" in entry && entry.place !== undefined && entry.place !== "" ? ` ${entry.place}` : "";
  switch (entry.is) {
    case "step": {
      const head = `step ${entry.name} "${entry.title}"`;
      const at = entry.at === undefined ? [] : [{ text: `at ${entry.at.join(", ")}` }];
      const done = entry.done ? [{ text: `done${stamp}${entry.doneAt === undefined ? "" : ` ${entry.doneAt.join(", ")}`}` }] : [];
      return [head, ...at, ...entry.acts.map((it) => ({ text: actLine(it), id: it.id })), ...more, ...done];
    }
    case "measure": {
      const head = `measure ${entry.limit} ${entry.when}${entry.gauge === undefined ? "" : ` by ${entry.gauge}`}${stamp}`;
      const rows = entry.readings.map((it) => ({
        text: [it.place, it.position, it.again ? "again" : undefined, `${it.figures.map((n) => n.toFixed(it.dec)).join(", ")} ${it.unit}`]
          .filter((word) => word !== undefined && word !== "")
          .join(" "),
      }));
      return [head, ...rows, ...more];
    }
    case "seen":
      return [`seen ${entry.check} ${entry.when} ${entry.good ? "good" : "bad"} "looked at with a lamp"${place}${stamp}`, ...more];
    case "finding": {
      const details = [`is ${entry.conditions.join(", ")}`];
      if (entry.because !== undefined) details.push(`because "${entry.because}"`);
      if (entry.decision !== undefined) details.push(`decision ${entry.decision}`);
      return [`finding ${entry.name}${entry.n === undefined ? "" : ` ${entry.n}`}${place}${stamp}`, ...details.map((text) => ({ text })), ...more];
    }
    case "order": {
      const items = entry.items.map((it) => ({ text: `item ${it.name} ${it.n}` }));
      const works = entry.works.map((it) => ({ text: `work ${it.name}${it.place ? ` ${it.place}` : ""} "${it.what}"` }));
      return [`order "${entry.reference}" to penn`, { text: `status ${entry.status}${stamp}` }, ...items, ...works, ...more];
    }
    case "question": {
      const answer = entry.answer === undefined ? [] : [{ text: `answer "${entry.answer}"` }];
      return [`question ${entry.name} "${entry.text}"`, { text: `about ${entry.about.join(", ")}` }, ...answer, ...more];
    }
    case "concession":
      return [`concession ${entry.name}${place} "${entry.why}" by "${entry.by}"${stamp}`, ...more];
    case "pause":
      return [`pause${stamp} "${entry.why}"`, ...more];
  }
}

export function actLine(it: Act): string {
  const names = it.names.map((one) => (one.n === undefined ? one.name : `${one.name} ${one.n}`)).join(", ");
  // A nut that is eased by so much is let back.
  const back = it.verb === "slacken" && it.on !== undefined;
  const words: string[] = [back ? "let back" : it.verb];
  if (it.verb === "raise") words.push(`on ${it.on}`);
  else if (it.verb === "support") {
    if (names !== "") words.push(names);
    if (it.places !== undefined) words.push(it.places.join(", "));
    words.push(`on ${it.on}`);
    if (it.text !== undefined) words.push(`under ${it.text}`);
    if (it.rated !== undefined) words.push(`rated ${it.rated} kg each`);
    if (it.load !== undefined) words.push(`load ${it.load} kg`);
    return words.join(" ");
  }
  if (names !== "") words.push(names);
  if (it.places !== undefined) words.push(it.places.join(", "));
  if (back) words.push(`by ${it.on}`);
  if (it.from !== undefined) words.push(`from ${it.from}`);
  if (it.with !== undefined) words.push(`with ${it.isNew ? "new " : ""}${it.with}`);
  else if (it.isNew) words.push("new");
  if (it.amount !== undefined) words.push(figure(it.amount));
  if (it.to !== undefined) words.push(`to ${figure(it.to)}${it.turn === undefined ? "" : ` + ${it.turn} deg`}`);
  if (it.gauge !== undefined) words.push(`by ${it.gauge}`);
  if (it.forNow !== undefined) words.push(`for now "${it.forNow}"`);
  if (it.text !== undefined) words.push(`"${it.text}"`);
  return words.join(" ");
}
