// For the bundler: `import.meta.url` of each file of ours goes on telling where that file stands, wherever the bundle lies.
import { readFile } from "node:fs/promises";
import { pathToFileURL } from "node:url";

export const placed = {
  name: "placed",
  setup(build) {
    build.onLoad({ filter: /\.m?ts$|\.mjs$/ }, async ({ path }) => {
      const text = await readFile(path, "utf8");
      return { contents: text.replaceAll("import.meta.url", JSON.stringify(pathToFileURL(path).href)), loader: "ts" };
    });
  },
};
