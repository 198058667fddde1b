-- Wythe in Neovim 0.7 or newer. Put this file into the folder `plugin` of your configuration.
--
-- Settings, before the file is read:
--   vim.g.wythe_command = { "wythe", "serve", "--stdio" }
--   vim.g.wythe_settings = { hints = { value = false } }
--   vim.g.wythe_open = function(address) ... end   -- what shows the page with the drawing
--
-- :WytheDrawing shows the drawing of what stands at the cursor in a browser; a click on a layer leads back here.

-- Not by `vim.filetype.add`, which Neovim 0.7 leaves aside.
vim.api.nvim_create_autocmd({ "BufRead", "BufNewFile" }, {
  pattern = "*.wythe",
  callback = function() vim.bo.filetype = "wythe" end,
})

local following = false

local function client_of(buffer)
  for _, client in pairs(vim.lsp.get_active_clients()) do
    if client.name == "wythe" and vim.lsp.buf_is_attached(buffer, client.id) then
      return client
    end
  end
end

local function tell_cursor()
  local client = following and client_of(vim.api.nvim_get_current_buf())
  if client then
    client.notify("wythe/cursor", vim.lsp.util.make_position_params(0, client.offset_encoding))
  end
end

local function open(address)
  if vim.g.wythe_open then
    vim.g.wythe_open(address)
  elseif vim.ui.open then
    vim.ui.open(address)
  else
    local opener = vim.fn.has("mac") == 1 and "open" or "xdg-open"
    if vim.fn.executable(opener) == 1 then
      vim.fn.jobstart({ opener, address }, { detach = true })
    else
      print("The drawing: " .. address)
    end
  end
end

local function drawing()
  local client = client_of(vim.api.nvim_get_current_buf())
  if not client then
    print("Wythe does not serve this buffer")
    return
  end
  following = true
  tell_cursor()
  local params = { command = "wythe.server.drawingPage", arguments = { { open = false } } }
  client.request("workspace/executeCommand", params, function(fault, address)
    if fault then
      print("The drawing cannot be shown: " .. fault.message)
    else
      vim.schedule(function() open(address) end)
    end
  end, vim.api.nvim_get_current_buf())
end

local function go(place)
  local client = client_of(vim.api.nvim_get_current_buf())
  vim.lsp.util.jump_to_location(place, client and client.offset_encoding or "utf-16")
end

-- What the lines above declarations do when `vim.lsp.codelens.run()` chooses one.
vim.lsp.commands["wythe.openDrawing"] = function(command)
  go(command.arguments[1])
  drawing()
end
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

-- Leads to a place the server names. Newer versions of Neovim have this themselves.
local function show_document(_, shown, context)
  if shown.external then
    open(shown.uri)
  else
    local client = vim.lsp.get_client_by_id(context.client_id)
    vim.lsp.util.jump_to_location({ uri = shown.uri, range = shown.selection }, client.offset_encoding)
  end
  return { success = true }
end

local function start(buffer)
  local name = vim.api.nvim_buf_get_name(buffer)
  local manifest = vim.fn.findfile("wythe.toml", vim.fn.fnamemodify(name, ":p:h") .. ";")
  local root = manifest ~= "" and vim.fn.fnamemodify(manifest, ":p:h") or vim.fn.fnamemodify(name, ":p:h")
  local capabilities = vim.lsp.protocol.make_client_capabilities()
  capabilities.window.showDocument = { support = true }
  local config = {
    name = "wythe",
    capabilities = capabilities,
    handlers = { ["window/showDocument"] = vim.lsp.handlers["window/showDocument"] or show_document },
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

vim.api.nvim_create_autocmd({ "CursorMoved", "CursorMovedI", "BufEnter" }, { pattern = "*.wythe", callback = tell_cursor })
vim.api.nvim_create_user_command("WytheDrawing", drawing, { desc = "Show the drawing of what stands at the cursor" })
