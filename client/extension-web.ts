// The VS Code extension in a browser: the language server is a worker of the page. No Node, no disk.
import { type ExtensionContext, Uri, workspace } from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { activateWith } from "./activate.ts";

/** What is used here of the browser's own; the extension is built without its types. */
interface Address {
  createObjectURL(of: unknown): string;
}
declare const Blob: new (parts: readonly unknown[], about: { readonly type: string }) => unknown;
declare const Worker: new (address: string) => never;

let client: Pick<LanguageClient, "stop"> | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  // Read and handed on: a worker can't be begun from where some editors keep their extensions.
  const program = await workspace.fs.readFile(Uri.joinPath(context.extensionUri, "dist/web-server.js"));
  const worker = new Worker((URL as unknown as Address).createObjectURL(new Blob([program], { type: "text/javascript" })));
  client = await activateWith(context, (options) => new LanguageClient("splitpin", "Splitpin", worker, options));
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}
