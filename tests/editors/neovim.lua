-- Opens the sheet named in $SHEET in a headless Neovim with the server, and prints what arrived as JSON:
-- diagnostics, a hover, completions, the outline, the order by workspace/executeCommand, and the text after a fix.
local sheet = vim.env.SHEET
local out = {}

local function finish()
  io.stdout:write(vim.fn.json_encode(out) .. "\n")
  vim.cmd("qall!")
end

local ok, failure = pcall(function()
  vim.cmd("edit " .. vim.fn.fnameescape(sheet))
  local client = vim.lsp.start_client({
    name = "splitpin",
    cmd = { vim.env.NODE, vim.env.SPLITPIN, "server", "--stdio" },
    root_dir = vim.fn.fnamemodify(sheet, ":p:h"),
  })
  vim.lsp.buf_attach_client(0, client)

  local function list()
    local found = {}
    for _, it in ipairs(vim.diagnostic.get(0)) do
      table.insert(found, { line = it.lnum + 1, byte = it.col, endByte = it.end_col, severity = it.severity, rule = it.code or it.user_data.lsp.code, message = it.message })
    end
    return found
  end
  local function await(what, test)
    if not vim.wait(15000, test, 20) then error("nothing came: " .. what) end
  end
  local function ask(method, params)
    local answers = vim.lsp.buf_request_sync(0, method, params, 15000)
    local answer = answers and answers[client]
    if answer == nil or answer.err ~= nil then error(method .. ": " .. vim.inspect(answers)) end
    return answer.result
  end

  await("diagnostics", function() return #vim.diagnostic.get(0) > 0 end)
  out.diagnostics = list()

  local text = vim.lsp.util.make_text_document_params(0)
  local at = { textDocument = text, position = { line = tonumber(vim.env.LINE) - 1, character = tonumber(vim.env.COLUMN) - 1 } }
  out.hover = ask("textDocument/hover", at)
  out.completion = ask("textDocument/completion", at)
  out.outline = ask("textDocument/documentSymbol", { textDocument = text })
  out.order = ask("workspace/executeCommand", { command = "splitpin.order", arguments = { text.uri } })

  -- The first fix that is offered is applied as Neovim applies edits.
  for _, it in ipairs(vim.diagnostic.get(0)) do
    local range = it.user_data.lsp.range or { start = { line = it.lnum, character = it.col }, ["end"] = { line = it.lnum, character = it.end_col } }
    local actions = ask("textDocument/codeAction", { textDocument = text, range = range, context = { diagnostics = {} } })
    if actions and actions[1] and it.severity == 1 then
      out.fixed = { rule = it.code or it.user_data.lsp.code, line = it.lnum + 1, title = actions[1].title }
      local before = vim.fn.json_encode(list())
      vim.lsp.util.apply_workspace_edit(actions[1].edit, "utf-16")
      await("diagnostics after the fix", function() return vim.fn.json_encode(list()) ~= before end)
      out.afterFix = list()
      break
    end
  end
  out.text = vim.api.nvim_buf_get_lines(0, 0, -1, true)
end)
if not ok then out.failure = tostring(failure) end
finish()
