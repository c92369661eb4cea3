-- What the server is told that Neovim does not tell by itself; and for Neovim older than 0.11, how it is
-- started: one server for each folder, with what newer ones set by themselves.
local M = {}

local ids = {}

local function folder_of(buffer)
  return vim.fn.fnamemodify(vim.api.nvim_buf_get_name(buffer), ":p:h")
end

local function start(config, root)
  return vim.lsp.start_client({
    name = "bicinium",
    cmd = config.cmd,
    root_dir = root,
    init_options = config.init_options,
    settings = config.settings,
    capabilities = vim.lsp.protocol.make_client_capabilities(),
    on_exit = function()
      ids[root] = nil
    end,
  })
end

--- Attaches a buffer to the server of its folder, which is started if need be.
function M.attach(config, buffer)
  local root = folder_of(buffer)
  ids[root] = ids[root] or start(config, root)
  if ids[root] then
    vim.lsp.buf_attach_client(buffer, ids[root])
    vim.bo[buffer].omnifunc = "v:lua.vim.lsp.omnifunc"
  end
end

local function clients_of(buffer)
  local all = vim.lsp.get_clients and vim.lsp.get_clients({ bufnr = buffer }) or vim.lsp.buf_get_clients(buffer)
  return vim.tbl_filter(function(client)
    return client.name == "bicinium"
  end, vim.tbl_values(all))
end

--- Tells where the cursor is, so that the page of the score shows the note there.
function M.tell_cursor(buffer)
  for _, client in ipairs(clients_of(buffer)) do
    local at = vim.lsp.util.make_position_params(0, client.offset_encoding)
    if vim.fn.has("nvim-0.11") == 1 then
      client:notify("bicinium/cursor", at)
    else
      client.notify("bicinium/cursor", at)
    end
  end
end

--- Shows the score of the sheet in the browser.
function M.show_score()
  local sheet = vim.uri_from_bufnr(0)
  vim.lsp.buf_request(0, "workspace/executeCommand", { command = "bicinium.showScore", arguments = { sheet } }, function(fault)
    if fault then
      vim.notify(fault.message, vim.log.levels.WARN)
    end
  end)
end

return M
