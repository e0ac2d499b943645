// The VS Code extension on a desk: the language server is a program of Node beside it.
import type { ExtensionContext } from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { activateWith } from "./activate.ts";

let client: Pick<LanguageClient, "stop"> | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath("dist/splitpin.js");
  client = await activateWith(
    context,
    (options) => new LanguageClient("splitpin", "Splitpin", { module, args: ["server"], transport: TransportKind.ipc }, options),
  );
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
