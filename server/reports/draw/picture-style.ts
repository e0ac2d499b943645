// How the drawings inside a page look: lines and shapes in the ink of the page, so that they print and turn dark with it.
// Invariant: signs, kinds of line and words carry the meaning; no colour does.
export const pictureStyle = `
.picture { margin: .4rem 0 .8rem; break-inside: avoid; break-before: avoid; break-after: avoid; }
.picture svg { display: block; width: 100%; max-width: 44rem; height: auto; }
.picture svg.calendar { max-width: 28rem; }
.picture svg.history { max-width: 28rem; }
.picture svg.readings { max-width: 28rem; }
.key { list-style: none; padding: 0; display: flex; flex-wrap: wrap; gap: .2rem 1.1rem; font-size: .9rem; color: var(--faint); }
.key li { margin: 0; display: flex; align-items: center; gap: .35rem; }
.key svg { flex: none; }
.picture svg.stack { max-width: 25rem; }
svg text { font: 12px system-ui, sans-serif; fill: var(--ink); font-variant-numeric: tabular-nums; paint-order: stroke; stroke: var(--card); stroke-width: 3px; stroke-linejoin: round; }
svg .faint { fill: var(--faint); }
svg .strong { font-weight: 700; }
svg .line { stroke: var(--ink); fill: none; stroke-width: 1.5; }
svg .thin { stroke: var(--rule); fill: none; stroke-width: 1; }
svg .wall { stroke: var(--edge); fill: none; stroke-width: 3; }
svg .dash { stroke: var(--faint); fill: none; stroke-width: 1; stroke-dasharray: 5 3; }
svg .dot { stroke: var(--faint); fill: none; stroke-width: 1; stroke-dasharray: 1 3; }
svg .mark { fill: var(--ink); stroke: var(--ink); stroke-width: 1.5; }
svg .open { fill: var(--card); stroke: var(--ink); stroke-width: 1.5; }
svg .stale { fill: var(--card); stroke: var(--ink); stroke-width: 1.5; stroke-dasharray: 2.5 2; }
svg .slab { fill: var(--card); stroke: var(--ink); stroke-width: 1.2; }
@media print { .picture svg { max-width: 15cm; } }
@media (forced-colors: active) {
  svg { forced-color-adjust: none; }
  svg text, svg .faint { fill: CanvasText; stroke: Canvas; }
  svg .line, svg .wall, svg .thin, svg .dash, svg .dot { stroke: CanvasText; }
  svg .stale { fill: Canvas; stroke: CanvasText; }
  svg .mark { fill: CanvasText; stroke: CanvasText; }
  svg .open, svg .slab { fill: Canvas; stroke: CanvasText; }
}
`;
