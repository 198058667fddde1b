-- What a person does in Neovim, done by a script; what is seen is written down for the test.

vim.g.wythe_command = { vim.env.WYTHE_COMMAND, "serve", "--stdio" }
vim.o.hidden = true
vim.o.swapfile = false
local heard = {}

local function write()
  local file = assert(io.open(vim.env.WYTHE_HEARD, "w"))
  file:write(vim.json and vim.json.encode(heard) or vim.fn.json_encode(heard))
  file:close()
end

local function wait(what, holds)
  if not vim.wait(60000, holds, 20) then
    error("waited in vain for " .. what)
  end
end

local function open(name)
  vim.cmd("edit " .. name)
  vim.cmd("setfiletype wythe")
  local buffer = vim.api.nvim_get_current_buf()
  wait("the server", function()
    local clients = vim.lsp.buf_get_clients(buffer)
    local _, client = next(clients)
    return client ~= nil and client.initialized
  end)
  return buffer
end

local function ask(buffer, method, params)
  -- This editor hears no answer that says the plans changed meanwhile, and waits on; a person would ask again.
  for _ = 1, 4 do
    local answers = vim.lsp.buf_request_sync(buffer, method, params, 15000) or {}
    for _, answer in pairs(answers) do
      if answer.err then
        error(method .. ": " .. vim.inspect(answer.err))
      end
      return answer.result
    end
  end
end

local function find(text)
  vim.fn.cursor(1, 1)
  assert(vim.fn.search("\\V" .. text, "cW") > 0, text .. " is there")
end

local function encoding(buffer)
  local _, client = next(vim.lsp.buf_get_clients(buffer))
  return client.offset_encoding or "utf-16"
end

-- What a browser asks, asked from here: the editor must answer the server meanwhile.
local function browse(port, method, path, key)
  local tcp, answer, ended = vim.loop.new_tcp(), {}, false
  local asked = { method .. " " .. path .. " HTTP/1.1", "Host: 127.0.0.1:" .. port, "Connection: close" }
  if key then
    table.insert(asked, "Authorization: Bearer " .. key)
  end
  tcp:connect("127.0.0.1", tonumber(port), function(fault)
    assert(not fault, fault)
    tcp:write(table.concat(asked, "\r\n") .. "\r\n\r\n")
    tcp:read_start(function(_, part)
      if part then
        table.insert(answer, part)
      else
        ended = true
      end
    end)
  end)
  wait("the answer to " .. path, function() return ended end)
  tcp:close()
  return table.concat(answer)
end

local function work()
  dofile(vim.env.WYTHE_PLUGIN)

  -- A mistake is shown, and the fix that is offered mends it.
  local probe = open("houses/probe.wythe")
  wait("findings", function() return #vim.diagnostic.get(probe) > 0 end)
  heard.findings = {}
  for _, d in ipairs(vim.diagnostic.get(probe)) do
    table.insert(heard.findings, { lnum = d.lnum, col = d.col, source = d.source, message = d.message })
  end
  local params = vim.lsp.util.make_range_params()
  params.range = { start = { line = 0, character = 0 }, ["end"] = { line = 0, character = 12 } }
  params.context = { diagnostics = {} }
  for _, action in ipairs(ask(probe, "textDocument/codeAction", params)) do
    if action.kind == "quickfix" then
      vim.lsp.util.apply_workspace_edit(action.edit, encoding(probe))
      break
    end
  end
  wait("the finding to go", function() return #vim.diagnostic.get(probe) == 0 end)
  heard.after_fix = vim.diagnostic.get(probe)
  vim.cmd("write")

  -- Hover over a wall.
  local house = open("houses/unit_4.wythe")
  find("south runs")
  local hover = ask(house, "textDocument/hover", vim.lsp.util.make_position_params())
  heard.hover = hover.contents.value

  -- Completion of a layer half typed, by the editor's own function.
  local library = open("library/closed_crawl.wythe")
  find("set board from")
  vim.cmd("normal! O            hang wa")
  vim.cmd("normal! $")
  local place = vim.lsp.util.make_position_params()
  place.position.character = place.position.character + 1
  local found = ask(library, "textDocument/completion", place)
  heard.completion = {}
  for _, item in ipairs(found.items) do
    table.insert(heard.completion, item.label)
  end
  vim.cmd("edit!")

  -- Rename across files, and save them.
  open("houses/unit_4.wythe")
  find("stem_wall(board")
  local rename = vim.lsp.util.make_position_params()
  rename.newName = "lined_wall"
  local edit = ask(0, "textDocument/rename", rename)
  vim.lsp.util.apply_workspace_edit(edit, encoding(0))
  vim.cmd("wall")

  -- The drawing as a page: it marks the layer under the cursor, and a click leads to the line of another.
  open("library/closed_crawl.wythe")
  find("set board from")
  local address
  vim.g.wythe_open = function(told) address = told end
  vim.cmd("WytheDrawing")
  wait("the address of the drawing", function() return address ~= nil end)
  local port, token = address:match("^http://127%.0%.0%.1:(%d+)/%?token=(%x+)$")
  local page = browse(port, "GET", "/?token=" .. token)
  local key = page:match("Bearer (%x+)")
  heard.drawing = browse(port, "GET", "/drawing?after=0", key)
  heard.used = browse(port, "GET", "/?token=" .. token):match("^HTTP/1.1 (%d+)")
  local marked = heard.drawing:match('"marked":"([%d:-]+)"')
  vim.fn.cursor(1, 1)
  heard.led = browse(port, "POST", "/go?origin=" .. marked, key)
  wait("the way back", function() return vim.fn.getline("."):find("set board from", 1, true) ~= nil end)
  heard.line = vim.fn.getline(".")
end

local ok, message = xpcall(work, debug.traceback)
if not ok then
  heard.error = message
end
write()
vim.cmd("qall!")
