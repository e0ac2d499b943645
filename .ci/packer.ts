// The usual packer of extensions, against which ours is tried. `.ci/run` fetches it: two hundred packages, which nothing else asks for.
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../", import.meta.url));

/** As `npm install` takes it. */
export const packer = "@vscode/vsce@3.9.2";

export const homeOfPacker = `${root}.cache/packer`;

/** Its program, where it was fetched. */
export const packerProgram = `${homeOfPacker}/node_modules/@vscode/vsce/vsce`;
