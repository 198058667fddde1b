-- Wythe in Neovim 0.7 or newer. Put this file into the folder `plugin` of your configuration.
--
-- Settings, before the file is read:
--   vim.g.wythe_command = { "wythe", "serve", "--stdio" }
--   vim.g.wythe_settings = { hints = { value = false } }

-- Not by `vim.filetype.add`, which Neovim 0.7 leaves aside.
vim.api.nvim_create_autocmd({ "BufRead", "BufNewFile" }, {
  pattern = "*.wythe",
  callback = function() vim.bo.filetype = "wythe" end,
})

-- What the lines above declarations do when `vim.lsp.codelens.run()` chooses one.
vim.lsp.commands["wythe.showFindings"] = function() vim.diagnostic.setloclist() end
vim.lsp.commands["wythe.showReferences"] = function(command)
  local items = vim.lsp.util.locations_to_items(command.arguments[2], "utf-16")
  vim.fn.setqflist({}, " ", { title = "Wythe", items = items })
  vim.cmd("copen")
end
vim.lsp.commands["wythe.runTest"] = function(command)
  local file = vim.uri_to_fname(command.arguments[1].uri)
  local wythe = (vim.g.wythe_command or { "wythe" })[1]
  vim.cmd("botright 12new")
  vim.fn.termopen({ wythe, "test", file }, { cwd = vim.fn.fnamemodify(file, ":h") })
end

local function start(buffer)
  local name = vim.api.nvim_buf_get_name(buffer)
  local manifest = vim.fn.findfile("wythe.toml", vim.fn.fnamemodify(name, ":p:h") .. ";")
  local root = manifest ~= "" and vim.fn.fnamemodify(manifest, ":p:h") or vim.fn.fnamemodify(name, ":p:h")
  local config = {
    name = "wythe",
    cmd = vim.g.wythe_command or { "wythe", "serve", "--stdio" },
    root_dir = root,
    init_options = vim.g.wythe_settings or vim.empty_dict(),
  }
  if vim.lsp.start then
    vim.lsp.start(config, { bufnr = buffer })
    return
  end
  for _, client in pairs(vim.lsp.get_active_clients()) do
    if client.name == "wythe" and client.config.root_dir == root then
      vim.lsp.buf_attach_client(buffer, client.id)
      return
    end
  end
  local id = vim.lsp.start_client(config)
  if id then
    vim.lsp.buf_attach_client(buffer, id)
  end
end

vim.api.nvim_create_autocmd("FileType", {
  pattern = "wythe",
  callback = function(event)
    local buffer = event.buf or vim.api.nvim_get_current_buf()
    vim.bo[buffer].commentstring = "// %s"
    vim.bo[buffer].shiftwidth = 4
    vim.bo[buffer].expandtab = true
    vim.bo[buffer].omnifunc = "v:lua.vim.lsp.omnifunc"
    start(buffer)
  end,
})
