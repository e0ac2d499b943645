// Neovim and Emacs set up from their pages alone: the block that a page shows is all that is put into the editor's file.
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, expect, test } from "vitest";
import { blockOf, splitpinOnPath } from "./page-alone.ts";

const home = mkdtempSync(join(tmpdir(), "splitpin-pages-"));
const name = "pillar-drill.jobsheet";
const path = `${splitpinOnPath(home)}:${process.env.PATH}`;
beforeAll(() => cpSync(fileURLToPath(new URL(`jobs/${name}`, import.meta.url)), join(home, name)));
afterAll(() => rmSync(home, { recursive: true, force: true }));

test("Neovim: faults come, comments are known, hover and completion answer, the order shows", () => {
  mkdirSync(join(home, ".config/nvim"), { recursive: true });
  writeFileSync(join(home, ".config/nvim/init.lua"), blockOf("neovim.md", "lua"));
  const asked = `
local out = {}
local ok, failure = pcall(function()
  if not vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end, 20) then error("no diagnostics") end
  out.faults, out.comment, out.filetype = #vim.diagnostic.get(0), vim.bo.commentstring, vim.bo.filetype
  local line = vim.fn.search("undo spindle-nut")
  vim.api.nvim_win_set_cursor(0, { line, 8 })
  vim.lsp.buf.hover()
  vim.wait(10000, function() return #vim.api.nvim_list_wins() > 1 end, 20)
  local windows = vim.api.nvim_list_wins()
  out.hover = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(windows[#windows]), 0, -1, true), "\\n")
  vim.api.nvim_win_close(windows[#windows], true)
  vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes("<leader>o", true, false, true), "mx", false)
  vim.wait(10000, function() return #vim.api.nvim_list_wins() > 1 end, 20)
  windows = vim.api.nvim_list_wins()
  out.order = table.concat(vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(windows[#windows]), 0, -1, true), "\\n")
end)
if not ok then out.failure = tostring(failure) end
io.stdout:write("\\n@@" .. vim.fn.json_encode(out) .. "\\n")
vim.cmd("qall!")
`;
  writeFileSync(join(home, "ask.lua"), asked);
  const env = { ...process.env, HOME: home, XDG_CONFIG_HOME: join(home, ".config"), PATH: path };
  const nvim = spawnSync("nvim", ["--headless", name, "-c", "luafile ask.lua"], { cwd: home, encoding: "utf8", timeout: 90_000, env });
  const seen = JSON.parse(nvim.stdout.split("\n@@")[1] ?? "{}") as Record<string, string | number>;
  expect(seen.failure, nvim.stderr).toBeUndefined();
  expect(seen).toMatchObject({ comment: "# %s", filetype: "jobsheet" });
  expect(seen.faults).toBeGreaterThan(1);
  expect(seen.hover).toContain("Spindle nut");
  // As it is read there, with no backslash that Markdown does not need.
  expect(seen.hover).not.toMatch(/\d\\\./);
  expect(seen.order).toContain("Top bearing");
});

test("Emacs: faults come, comments are known, the keywords have a face", () => {
  writeFileSync(join(home, "init.el"), blockOf("emacs.md", "elisp"));
  writeFileSync(
    join(home, "ask.el"),
    `(require 'json)
(setq eglot-sync-connect 15)
(with-current-buffer (find-file-noselect "${name}")
  (run-hooks 'post-command-hook)
  (unless (eglot-current-server) (call-interactively #'eglot))
  (flymake-mode 1)
  (flymake-start)
  (let ((until (+ (float-time) 20)))
    (while (and (null (flymake-diagnostics)) (< (float-time) until)) (accept-process-output nil 0.1)))
  (font-lock-ensure)
  (goto-char (point-min)) (re-search-forward "^part ")
  (princ (concat "\\n@@" (json-encode \`((faults . ,(length (flymake-diagnostics))) (mode . ,(symbol-name major-mode)) (comment . ,comment-start)
    (face . ,(format "%s" (get-text-property (match-beginning 0) 'face))))) "\\n"))
  (ignore-errors (eglot-shutdown (eglot-current-server))))
`,
  );
  const emacs = spawnSync("emacs", ["--batch", "-l", "init.el", "-l", "ask.el"], {
    cwd: home,
    encoding: "utf8",
    timeout: 90_000,
    env: { ...process.env, HOME: home, PATH: path },
  });
  const seen = JSON.parse(emacs.stdout.split("\n@@")[1] ?? "{}") as Record<string, string | number>;
  expect(seen, emacs.stderr).toMatchObject({ mode: "jobsheet-mode", comment: "# ", face: "font-lock-keyword-face" });
  expect(seen.faults).toBeGreaterThan(1);
});
