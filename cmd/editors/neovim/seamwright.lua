-- Seamwright for Neovim, 0.7 and later. Put this file into ~/.config/nvim/plugin/.

vim.api.nvim_create_autocmd({ "BufRead", "BufNewFile" }, {
  pattern = "*.seam",
  callback = function(event)
    vim.bo[event.buf].filetype = "seam"
  end,
})

-- The folder of the project: the nearest above that holds .git or seamwright.root.
local function project(path)
  local folder = vim.fn.fnamemodify(path, ":p:h")
  for _, mark in ipairs({ ".git", "seamwright.root" }) do
    local found = vim.fn.finddir(mark, folder .. ";")
    if found == "" then
      found = vim.fn.findfile(mark, folder .. ";")
    end
    if found ~= "" then
      return vim.fn.fnamemodify(found, ":p:h" .. (vim.fn.isdirectory(found) == 1 and ":h" or ""))
    end
  end
  return folder
end

local clients = {} -- one server for each project

local function attach(buffer)
  vim.bo[buffer].commentstring = "// %s"
  vim.bo[buffer].shiftwidth = 2
  vim.bo[buffer].expandtab = true
  local root = project(vim.api.nvim_buf_get_name(buffer))
  local config = { name = "seamwright", cmd = { "seamwright", "lsp" }, root_dir = root }
  if vim.lsp.start then -- 0.8 and later
    vim.lsp.start(config, { bufnr = buffer })
    return
  end
  if not clients[root] then
    config.on_exit = function()
      clients[root] = nil
    end
    clients[root] = vim.lsp.start_client(config)
  end
  vim.lsp.buf_attach_client(buffer, clients[root])
end

vim.api.nvim_create_autocmd("FileType", {
  pattern = "seam",
  callback = function(event)
    attach(event.buf)
  end,
})
