// Puts counters into a bundle: one for calls of its functions, one for turns of its loops. Who imports it asks `taken()` for what was counted since it was last asked. They are part of the
// program, so that they are the same whatever the engine makes of it, and cost next to nothing.
import { parseAst } from "vitest/node";

/** `code`, a module written out by esbuild, with its counters, and `taken` among what it exports. */
export function withCounters(code: string): string {
  const into: { readonly at: number; readonly text: string }[] = [];
  const begins = (statement: Node, text: string) => {
    if (statement.type === "BlockStatement") into.push({ at: statement.start + 1, text });
    else into.push({ at: statement.start, text: `{${text}` });
  };
  const ends = (statement: Node) => {
    if (statement.type !== "BlockStatement") into.push({ at: statement.end, text: "}" });
  };
  const look = (node: Node): void => {
    const body = isNode(node.body) ? node.body : undefined;
    const isFunction = functions.has(node.type) && body !== undefined;
    const isLoop = loops.has(node.type) && body !== undefined;
    const isValue = isFunction && body.type !== "BlockStatement" && body.type !== "FunctionBody";
    if (isValue) into.push({ at: body.start, text: "(__calls++," });
    else if (isFunction) into.push({ at: body.start + 1, text: "__calls++;" });
    else if (isLoop) begins(body, "__turns++;");
    for (const part of Object.values(node)) {
      if (isNode(part)) look(part);
      else if (Array.isArray(part)) for (const it of part) if (isNode(it)) look(it);
    }
    if (isValue) into.push({ at: body.end, text: ")" });
    else if (isLoop) ends(body);
  };
  look(parseAst(code) as unknown as Node);
  // What stands at one place stays in the order in which it was put there: outer beginnings first, inner ends first.
  into.sort((a, b) => a.at - b.at);
  const out = ["let __calls = 0, __turns = 0;\n"];
  let from = 0;
  for (const { at, text } of into) {
    out.push(code.slice(from, at), text);
    from = at;
  }
  out.push(code.slice(from), "\nexport function taken() { const it = { calls: __calls, turns: __turns }; __calls = 0; __turns = 0; return it; }\n");
  return out.join("");
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly body?: unknown;
}

const functions: ReadonlySet<string> = new Set(["FunctionDeclaration", "FunctionExpression", "ArrowFunctionExpression"]);
const loops: ReadonlySet<string> = new Set(["ForStatement", "ForInStatement", "ForOfStatement", "WhileStatement", "DoWhileStatement"]);

function isNode(it: unknown): it is Node {
  return typeof it === "object" && it !== null && typeof (it as { type?: unknown }).type === "string";
}
