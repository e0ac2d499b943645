// Runs in the workbench's page: the words that stand over each squiggle of a severity, as the screen shows them.
// Its value is a function; the test sends it there as text.
(severity) => {
  const lines = [...document.querySelectorAll(".monaco-editor .view-line")];
  return [...document.querySelectorAll(`.monaco-editor .squiggly-${severity}`)].map((squiggle) => {
    const under = squiggle.getBoundingClientRect();
    const line = lines.find((it) => {
      const box = it.getBoundingClientRect();
      return box.top - 1 <= under.top && under.top < box.bottom;
    });
    let words = "";
    const walk = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node !== null; node = walk.nextNode()) {
      for (let i = 0; i < node.textContent.length; i++) {
        const range = document.createRange();
        range.setStart(node, i);
        range.setEnd(node, i + 1);
        const box = range.getBoundingClientRect();
        const middle = (box.left + box.right) / 2;
        if (under.left <= middle && middle <= under.right) words += node.textContent[i];
      }
    }
    return words.replaceAll("\u00a0", " ");
  });
};
