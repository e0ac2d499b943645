// Runs in a page: marks one text of each kind that is not known yet, and names the new kinds. Of one kind are texts that the eye can read as well as one another:
// the same element at the same place among its ancestors' elements and classes, with the same colours, letters and grounds.
// Its value is a function; the test sends it there as text.
(known, hashed) => {
  for (const it of document.querySelectorAll("[data-new-kind]")) it.removeAttribute("data-new-kind");
  const seen = new Set(known);
  const fresh = [];
  const grounds = new Map();
  const hasText = (element) => [...element.childNodes].some((it) => it.nodeType === Node.TEXT_NODE && it.nodeValue.trim() !== "");
  /** What an element and those around it put under and beside its text. */
  const groundOf = (element) => {
    if (element === null) return "";
    let it = grounds.get(element);
    if (it === undefined) {
      const style = getComputedStyle(element);
      const own = [
        element.tagName,
        // A number in a class is a width.
        element.getAttribute("class")?.replace(/\d+/g, "0"),
        hasText(element),
        style.color,
        style.backgroundColor,
        style.backgroundImage,
        style.opacity,
        style.filter,
        style.mixBlendMode,
        style.position,
      ];
      it = hashed(`${groundOf(element.parentElement)}>${own.join(" ")}`);
      grounds.set(element, it);
    }
    return it;
  };
  const drawings = new Map();
  const shapesOf = (drawing) => {
    let it = drawings.get(drawing);
    if (it === undefined) {
      const styles = [...drawing.querySelectorAll("*")].map((shape) => getComputedStyle(shape));
      it = [...new Set(styles.map((style) => `${style.fill} ${style.stroke} ${style.opacity}`))].sort().join();
      drawings.set(drawing, it);
    }
    return it;
  };
  for (const element of document.querySelectorAll("body, body *")) {
    if (!hasText(element) && !["INPUT", "SELECT", "TEXTAREA"].includes(element.tagName)) continue;
    const style = getComputedStyle(element);
    const letters = [style.fontSize, style.fontWeight, style.textShadow, style.textDecorationLine, style.visibility, element.checkVisibility()];
    // What lies under a text in a drawing may be any shape of it: of one kind are those of drawings whose shapes have the same colours.
    const drawing = element.closest("svg");
    if (drawing !== null) letters.push(style.fill, style.stroke, shapesOf(drawing));
    const kind = hashed(`${groundOf(element)} ${letters.join(" ")}`);
    if (seen.has(kind)) continue;
    seen.add(kind);
    fresh.push(kind);
    element.setAttribute("data-new-kind", "");
  }
  return fresh;
};
