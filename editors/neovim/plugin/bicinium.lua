-- Starts the server with every sheet, and the parser if it has been built.
local here = vim.fn.fnamemodify(debug.getinfo(1, "S").source:sub(2), ":p:h:h")

local function on_sheets(name, act)
  vim.api.nvim_create_autocmd("FileType", {
    group = vim.api.nvim_create_augroup("bicinium_" .. name, { clear = true }),
    pattern = "bicinium",
    callback = act,
  })
end

if vim.fn.has("nvim-0.11") == 1 then
  vim.lsp.enable("bicinium")
else
  local config = dofile(here .. "/lsp/bicinium.lua")
  on_sheets("server", function(event)
    require("bicinium").attach(config, event.buf)
  end)
end

on_sheets("score", function(event)
  vim.api.nvim_create_autocmd({ "CursorMoved", "CursorMovedI" }, {
    group = vim.api.nvim_create_augroup("bicinium_cursor_" .. event.buf, { clear = true }),
    buffer = event.buf,
    callback = function()
      require("bicinium").tell_cursor(event.buf)
    end,
  })
  vim.api.nvim_buf_create_user_command(event.buf, "BiciniumScore", function()
    require("bicinium").show_score()
  end, { desc = "Show the score of the sheet in the browser" })
end)

on_sheets("colours", function(event)
  if #vim.api.nvim_get_runtime_file("parser/bicinium.so", false) > 0 then
    pcall(vim.treesitter.start, event.buf, "bicinium")
  end
end)
