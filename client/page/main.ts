// The page of the reports beside a sheet: turns between them, follows the sheet, marks what changed, leads to lines and from lines to rows.
// Invariant: what comes as a page is parsed by a parser that runs nothing, and nothing of it but text, style and drawings is put in.
import type { FromPage, ReportShown, ToPage } from "../messages.ts";
import { type Said, markChanges, putMark, saidBy } from "./changes.ts";
import { morph } from "./morph.ts";

declare function acquireVsCodeApi(): { postMessage(said: FromPage): void };

/** Made by us and free of what a sheet says, like all else that is no text of it. */
const styles = /<style>([^<]*)<\/style>/g;

const host = acquireVsCodeApi();
const page = byId("page");
const nav = byId("reports");
const status = byId("status");
const afresh = byId("afresh");
const styleNonce = document.currentScript?.nonce ?? "";

let shown: ReportShown | undefined;
/** What each report said when its marks began, and how far it was scrolled. */
const began = new Map<string, Said>();
const scrolled = new Map<string, number>();
const photos = new Map<string, string>();
const unfolded = new Set<string>();
let cursor: { file: string; line: number } | undefined;
/** The page goes to the row of the cursor when it is drawn. */
let goes = false;
let lastSaid: Said = new Map();
let cleared = false;

window.addEventListener("message", ({ data }: MessageEvent<ToPage | undefined>) => {
  if (data?.kind === "report") show(data);
  else if (data?.kind === "cursor") {
    cursor = { file: data.file, line: data.line };
    goes = data.follow;
    markCursor();
  } else if (data?.kind === "photo") {
    photos.set(`${data.path} ${data.mark}`, data.src);
    for (const it of page.querySelectorAll("img[data-photo]")) bring(it);
  }
});

document.addEventListener("click", (event) => {
  if (!(event.target instanceof Element)) return;
  const turn = event.target.closest("[data-report]")?.getAttribute("data-report");
  if (turn !== null && turn !== undefined) return host.postMessage({ kind: "turn", report: turn });
  if (event.target.closest("#save") !== null) return host.postMessage({ kind: "save" });
  if (event.target.closest("#afresh") !== null) return startAfresh();
  const row = event.target.closest("[data-line]");
  if (row === null) return;
  event.preventDefault();
  // Somebody who marks a text to copy it does not want to leave.
  if (row.tagName !== "A" && !(getSelection()?.isCollapsed ?? true)) return;
  host.postMessage({ kind: "line", file: row.getAttribute("data-file") ?? "", line: Number(row.getAttribute("data-line")) });
});

host.postMessage({ kind: "ready" });

function show(next: ReportShown): void {
  const turned = shown?.report !== next.report || shown.sheet !== next.sheet;
  if (shown !== undefined && turned) scrolled.set(shown.report, window.scrollY);
  if (shown !== undefined && shown.sheet !== next.sheet) {
    began.clear();
    scrolled.clear();
  }
  shown = next;
  drawNav(next);

  // The style is taken out first: this frame's policy refuses any that does not bear its nonce, and says so for each.
  const read = new DOMParser().parseFromString(next.html.replace(styles, ""), "text/html");
  for (const it of read.querySelectorAll("script, meta, link, base, iframe, object, embed")) it.remove();
  takeStyle([...next.html.matchAll(styles)].map((it) => it[1]).join("\n"));
  const main = read.querySelector("main") ?? read.body;
  fold(main);
  lastSaid = saidBy(main);
  const before = began.get(next.report);
  if (before === undefined) began.set(next.report, lastSaid);
  sayChanges(before === undefined ? { changed: 0, fresh: 0, gone: [] } : markChanges(main, before));
  markRows(main);
  for (const it of main.querySelectorAll("img[data-photo]")) bring(it);

  const old = page.querySelector("main");
  if (old === null || turned) page.replaceChildren(document.adoptNode(main));
  else morph(old, main);
  if (turned) window.scrollTo(0, scrolled.get(next.report) ?? 0);
  follow();
}

/** What is folded at first beside a sheet, the head and the cautions, stays as the reader left it. */
function fold(main: Element): void {
  for (const it of main.querySelectorAll<HTMLDetailsElement>("details[data-fold]")) it.open = unfolded.has(it.dataset.fold as string);
}

document.addEventListener(
  "toggle",
  ({ target }) => {
    if (!(target instanceof HTMLDetailsElement) || target.dataset.fold === undefined || !target.isConnected) return;
    if (target.open) unfolded.add(target.dataset.fold);
    else unfolded.delete(target.dataset.fold);
  },
  true,
);

function drawNav({ reports, report }: ReportShown): void {
  const drawn = reports.map(({ name, title }) => {
    const button = document.createElement("button");
    button.type = "button";
    button.dataset.report = name;
    button.textContent = title;
    if (name === report) button.setAttribute("aria-current", "page");
    return button;
  });
  const next = document.createElement("nav");
  for (const { name, value } of nav.attributes) next.setAttribute(name, value);
  next.append(...drawn);
  morph(nav, next);
}

/** The page's own style, kept where it is the same. */
function takeStyle(text: string): void {
  const before = document.querySelector("style[data-page]");
  if (before?.textContent === text) return;
  before?.remove();
  const own = document.createElement("style");
  own.setAttribute("data-page", "");
  own.nonce = styleNonce;
  own.textContent = text;
  // The frame's own style comes behind it and wins.
  document.head.prepend(own);
}

// ---------------------------------------------------------------- what changed

function sayChanges({ changed, fresh, gone }: ReturnType<typeof markChanges>): void {
  const parts = [
    changed > 0 ? `${changed} changed` : "",
    fresh > 0 ? `${fresh} new` : "",
    gone.length > 0 ? `${gone.length} gone (${gone.slice(0, 3).join("; ")}${gone.length > 3 ? "; \u2026" : ""})` : "",
  ].filter((it) => it !== "");
  const words = parts.length === 0 ? "" : `${parts.join(", ")} since ${cleared ? "you cleared the marks" : "you opened this"}.`;
  if (status.textContent !== words) status.textContent = words;
  afresh.hidden = parts.length === 0;
}

function startAfresh(): void {
  if (shown === undefined) return;
  began.set(shown.report, lastSaid);
  cleared = true;
  for (const it of page.querySelectorAll(".page-mark.changed")) it.remove();
  for (const it of page.querySelectorAll(".is-changed")) it.classList.remove("is-changed");
  sayChanges({ changed: 0, fresh: 0, gone: [] });
}

// ---------------------------------------------------------------- where the cursor is

function markCursor(): void {
  for (const it of page.querySelectorAll(".page-mark.here")) it.remove();
  for (const it of page.querySelectorAll(".is-here")) {
    it.classList.remove("is-here");
    it.removeAttribute("aria-current");
  }
  markRows(page);
  follow();
}

/** The rows of the cursor's line; where there is none, those of its entry. */
function markRows(root: ParentNode): void {
  if (cursor === undefined || shown === undefined) return;
  const { file, line } = cursor;
  const own = [...root.querySelectorAll("[data-line]")].filter((it) => it.getAttribute("data-file") === file);
  let found = own.filter((it) => Number(it.getAttribute("data-line")) === line);
  if (found.length === 0) {
    const starts = shown.entries[file] ?? [];
    const from = starts.findLast((it) => it <= line);
    const to = starts.find((it) => it > line) ?? Number.POSITIVE_INFINITY;
    if (from !== undefined) found = own.filter((it) => Number(it.getAttribute("data-line")) >= from && Number(it.getAttribute("data-line")) < to);
  }
  for (const row of new Set(found.map((it) => it.closest("[data-row]")))) {
    if (row === null || row.classList.contains("is-here")) continue;
    putMark(row, "\u25c2 your line", "here");
    row.setAttribute("aria-current", "true");
  }
}

function follow(): void {
  if (!goes) return;
  const row = page.querySelector(".is-here");
  if (row === null) return;
  goes = false;
  const { top, bottom } = row.getBoundingClientRect();
  const head = byId("head").getBoundingClientRect().bottom;
  if (top < head || bottom > window.innerHeight) window.scrollBy(0, top - head - (window.innerHeight - head) / 4);
}

// ---------------------------------------------------------------- photos

/** Photos come after the page, each once. */
function bring(image: Element): void {
  const path = image.getAttribute("data-photo") ?? "";
  const mark = image.getAttribute("data-mark") ?? "";
  const src = photos.get(`${path} ${mark}`);
  if (src === undefined) {
    photos.set(`${path} ${mark}`, "");
    host.postMessage({ kind: "photo", path, mark });
  } else if (src !== "" && image.getAttribute("src") !== src) image.setAttribute("src", src);
}

function byId(id: string): HTMLElement {
  const it = document.getElementById(id);
  if (it === null) throw new Error(`The page has no #${id}.`);
  return it;
}
