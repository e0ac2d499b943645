import { test } from "vitest";
import { ask } from "./gate.ts";
import { judge, told } from "./judge.ts";
import { write } from "./sheet.ts";
import { builders, seeded, soundStory } from "./story.ts";
test("try", () => {
  for (const name of Object.keys(builders)) {
    const story = soundStory([name], seeded(3));
    const page = write(story);
    const a = ask(page.text);
    console.log(`${name}: judge [${told(judge(story))}] blocked ${a.blocked} report ${a.reportReleased}\n` + a.words.filter((it) => it.severity !== "hint").map((it) => `  ${it.line} ${it.severity} ${it.rule}: ${it.message}   << ${page.text.split("\n")[it.line - 1]}`).join("\n"));
    if (process.env.SHOW === name) console.log(page.text.split("\n").map((l, i) => `${i + 1}\t${l}`).join("\n"));
  }
});
