-- Starts the server for a buffer in Neovim older than 0.11: one server for each folder. What newer
-- ones set by themselves is set here.
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

return M
