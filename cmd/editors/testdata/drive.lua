-- Works in a pattern as a person would, with Neovim's own client, and writes what
-- it sees. The test looks at it.
vim.cmd("source " .. vim.env.PLUGIN)
vim.cmd("edit " .. vim.env.FILE)

local function say(...)
  io.stdout:write(table.concat(vim.tbl_map(tostring, { ... }), " "), "\n")
end
local function wait(what, done)
  if not vim.wait(10000, done, 10) then
    say("in vain:", what)
    vim.cmd("cquit!")
  end
end
local function problems()
  return vim.diagnostic.get(0)
end
local function line(n)
  return vim.api.nvim_buf_get_lines(0, n - 1, n, false)[1]
end
local function request(method)
  local answers = vim.lsp.buf_request_sync(0, method, vim.lsp.util.make_position_params(), 5000)
  for _, answer in pairs(answers or {}) do
    return answer.result or {}
  end
end

wait("a problem", function() return #problems() == 1 end)
local p = problems()[1]
say("problem", p.code, "under", line(p.lnum + 1):sub(p.col + 1, p.end_col))
vim.api.nvim_buf_set_text(0, p.lnum, p.col, p.lnum, p.end_col, { "night" })
wait("no problem", function() return #problems() == 0 end)

vim.fn.search("1.25, deck")
vim.fn.search("deck")
say("hover", vim.inspect(request("textDocument/hover").contents))
vim.lsp.buf.rename("keel")
wait("the new name", function() return vim.fn.search("let keel", "nw") > 0 end)
say("renamed", line(8), line(11))

vim.fn.search("2 night along (1.25")
say("piece", vim.inspect(request("textDocument/hover").contents))

vim.api.nvim_buf_set_lines(0, 7, 8, false, { "let    keel=2" })
if vim.lsp.buf.format then vim.lsp.buf.format({ async = false }) else vim.lsp.buf.formatting_sync(nil, 5000) end
say("laid out", line(8))

vim.fn.search("join (0")
local found = {}
for _, item in ipairs(request("textDocument/completion").items) do found[item.label] = true end
say("offered", found.join, found.section, found.block == nil)
vim.cmd("qa!")
