// Runs in a page: marks each part of it in which every element is of a known kind, and names the kinds that are not known. Of one kind are elements that stand in the same
// elements, are the same and hold the same, by tags, attributes and roles, and by whether there is text. What hangs on more than that is
// never known: what names another or is named by it, and what scrolls.
// Its value is a function; the test sends it there as text.
(known, hashed) => {
  for (const it of document.querySelectorAll("[data-known-kind]")) it.removeAttribute("data-known-kind");
  const seen = new Set(known);
  const fresh = [];
  // Of these the value tells what an element is; of any other, whether there is one.
  const telling = ["role", "type", "scope", "lang", "tabindex", "style", "colspan", "rowspan", "autocomplete", "contenteditable"];
  const leading = ["id", "for", "headers", "usemap", "list", "form", "accesskey", "aria-labelledby", "aria-describedby", "aria-controls", "aria-owns"];
  const scrolls = (element) =>
    (element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1) &&
    /auto|scroll/.test(getComputedStyle(element).overflow);
  const selfOf = (element) => {
    const attributes = [];
    // A number in a class is a width.
    for (const { name, value } of element.attributes)
      attributes.push(
        name === "class"
          ? `class=${value.replace(/\d+/g, "0")}`
          : telling.includes(name) || (name.startsWith("aria-") && name !== "aria-label")
            ? `${name}=${value}`
            : value.trim() === ""
              ? `${name}=`
              : name,
      );
    return `${element.tagName} ${attributes.sort().join(" ")}`;
  };
  const tells = (element) => leading.every((name) => !element.hasAttribute(name)) && !scrolls(element);
  const complete = new Set();
  /** Notes whether an element and all in it are known, and says what it is made of. */
  const look = (element, around) => {
    const self = selfOf(element);
    const here = hashed(`${around}>${self}`);
    const made = new Set();
    let all = true;
    let text = false;
    for (const it of element.childNodes) {
      if (it.nodeType === Node.TEXT_NODE && it.nodeValue.trim() !== "") {
        text = true;
        made.add("text");
      } else if (it.nodeType === Node.ELEMENT_NODE) {
        const its = look(it, here);
        if (!complete.has(it)) all = false;
        if (its.text) text = true;
        made.add(its.text ? `${its.self} with text` : its.self);
      }
    }
    // Which heads have cells is a matter of the whole table.
    if (element.tagName === "TABLE") for (const row of element.rows) made.add([...row.cells].map((it) => `${it.tagName}${it.colSpan}`).join(" "));
    const kind = hashed(`${here}>${text} ${[...made].sort().join(" | ")}`);
    if (all && tells(element) && seen.has(kind)) complete.add(element);
    if (!seen.has(kind)) {
      seen.add(kind);
      fresh.push(kind);
    } else if (!tells(element)) fresh.push("");
    return { self, text };
  };
  const mark = (element) => {
    if (complete.has(element)) element.setAttribute("data-known-kind", "");
    else for (const it of element.children) mark(it);
  };
  for (const it of document.body.children) look(it, "");
  for (const it of document.body.children) mark(it);
  return fresh;
};
