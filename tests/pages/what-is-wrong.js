// Runs in a page: names each text that is cut, that lies over another, or that reaches out of the page or of its drawing.
// Its value is a function; the test sends it there as text.
() => {
  const faults = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) faults.push(`the page is ${root.scrollWidth} wide and its window ${root.clientWidth}`);
  const short = (text) => text.trim().replace(/\s+/g, " ").slice(0, 50);
  const isHidden = (element) => {
    const hidden = element.closest(".hidden, [hidden], thead");
    return hidden !== null && getComputedStyle(hidden).clipPath !== "none";
  };

  /** Spaces at the end of a line hang over the edge, and nobody sees them: a letter of it is outside. */
  const isSeenOutside = (node) => {
    const range = document.createRange();
    for (let i = 0; i < node.nodeValue.length; i++) {
      if (/\s/.test(node.nodeValue.charAt(i))) continue;
      range.setStart(node, i);
      range.setEnd(node, i + 1);
      for (const box of range.getClientRects()) if (box.left < -0.5 || box.right > root.clientWidth + 0.5) return true;
    }
    return false;
  };

  const boxes = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node !== null; node = walk.nextNode()) {
    const home = node.parentElement;
    if (node.nodeValue.trim() === "" || ["STYLE", "SCRIPT"].includes(home.tagName) || isHidden(home)) continue;
    if (!home.checkVisibility()) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) {
      if (box.width < 1 || box.height < 1) continue;
      boxes.push({ box, home, text: short(node.nodeValue) });
      if ((box.left < -0.5 || box.right > root.clientWidth + 0.5) && isSeenOutside(node)) faults.push(`“${short(node.nodeValue)}” reaches out of the page`);
    }
    const drawing = home.closest("svg");
    if (drawing !== null) {
      const frame = drawing.getBoundingClientRect();
      const own = home.getBoundingClientRect();
      if (own.left < frame.left - 0.5 || own.right > frame.right + 0.5 || own.top < frame.top - 2 || own.bottom > frame.bottom + 2)
        faults.push(`“${short(node.nodeValue)}” reaches out of its drawing`);
    }
  }

  // Letters stand closer than their line boxes: a third of the height of a line belongs to no letter.
  const sorted = boxes.sort((a, b) => a.box.top - b.box.top);
  for (let i = 0; i < sorted.length; i++) {
    for (let j = i + 1; j < sorted.length && sorted[j].box.top < sorted[i].box.bottom; j++) {
      const a = sorted[i];
      const b = sorted[j];
      const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
      const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
      if (wide > 1.5 && high > Math.min(a.box.height, b.box.height) / 3) faults.push(`“${a.text}” lies over “${b.text}”`);
    }
  }

  for (const it of document.querySelectorAll("body *")) {
    if (it.closest("svg, .hidden, thead") !== null) continue;
    const style = getComputedStyle(it);
    if (["hidden", "clip"].includes(style.overflowX) && it.scrollWidth > it.clientWidth + 1) faults.push(`“${short(it.textContent)}” is cut`);
    if (style.textOverflow === "ellipsis" && it.scrollWidth > it.clientWidth) faults.push(`“${short(it.textContent)}” is cut short`);
    // A figure must not reach out of its own cell into the next.
    if (it.tagName === "TD" && it.scrollWidth > it.clientWidth + 1) faults.push(`“${short(it.textContent)}” is wider than its cell`);
  }
  return [...new Set(faults)];
};
