-- Goes through the sheet with Neovim's own commands and tells what is seen. For 0.7 and later.
local encode = vim.json and vim.json.encode or vim.fn.json_encode
local story = { more = {} }
local buffer = vim.api.nvim_get_current_buf()

local function tell()
  vim.fn.writefile({ encode(story) }, os.getenv("BICINIUM_STORY"))
end

local function wait(what, condition)
  if not vim.wait(60000, condition, 20) then
    error("waited in vain for " .. what)
  end
end

local function text()
  return table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, false), "\n") .. "\n"
end

local function shown()
  return vim.tbl_map(function(it)
    return { line = it.lnum, message = it.message }
  end, vim.diagnostic.get(buffer))
end

local function finding()
  for _, it in ipairs(vim.diagnostic.get(buffer)) do
    if it.message:find("^Fifths in a row") then
      return it
    end
  end
end

local function client()
  return (vim.lsp.get_clients or vim.lsp.get_active_clients)()[1]
end

-- The text of the first floating window there is.
local function floating()
  for _, window in ipairs(vim.api.nvim_list_wins()) do
    if vim.api.nvim_win_get_config(window).relative ~= "" then
      local lines = vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false)
      vim.api.nvim_win_close(window, true)
      return table.concat(lines, "\n")
    end
  end
end

local function go_to(line, column)
  vim.api.nvim_win_set_cursor(0, { line + 1, column })
end

local function hover()
  local at = finding()
  go_to(at.lnum, at.col)
  story.hovered = { at.lnum, select(2, vim.str_utfindex(vim.fn.getline("."), at.col)) }
  vim.lsp.buf.hover()
  wait("the hover", function()
    story.hover = floating()
    return story.hover
  end)
end

local function mend()
  local before = text()
  vim.ui.select = function(items, _, choose)
    choose(items[1], 1)
  end
  vim.lsp.buf.code_action()
  wait("the fix", function()
    return text() ~= before
  end)
  story.fixed = text()
end

local function lay_out()
  if vim.lsp.buf.format then
    vim.lsp.buf.format({ timeout_ms = 60000 })
  else
    vim.lsp.buf.formatting_sync(nil, 60000)
  end
  story.formatted = text()
end

-- Types the keys that ask for completion behind the hole, and reads the menu.
local function complete()
  vim.fn.search("?  |", "w")
  local keys = vim.api.nvim_replace_termcodes("a<C-x><C-o>", true, false, true)
  local timer = vim.loop.new_timer()
  local left = 600
  timer:start(100, 100, vim.schedule_wrap(function()
    local menu = vim.fn.complete_info({ "items" }).items
    left = left - 1
    if #menu > 0 or left == 0 then
      story.more.completion = vim.tbl_map(function(it)
        return it.abbr ~= "" and it.abbr or it.word
      end, menu)
      timer:stop()
      vim.api.nvim_input("<C-e><Esc>")
    end
  end))
  vim.api.nvim_feedkeys(keys, "ntx!", false)
end

local function colour_at(pattern)
  local line, column = unpack(vim.fn.searchpos(pattern, "wn"))
  if vim.inspect_pos then
    local at = vim.inspect_pos(buffer, line - 1, column - 1)
    local last = at.treesitter[#at.treesitter] or at.syntax[#at.syntax]
    return last and (last.hl_group_link or last.hl_group)
  end
  return vim.fn.synIDattr(vim.fn.synIDtrans(vim.fn.synID(line, column, 1)), "name")
end

local function colours()
  if vim.treesitter.highlighter and vim.treesitter.highlighter.active[buffer] then
    vim.treesitter.get_parser(buffer):parse(true)
  end
  story.more.colours = {
    keyword = colour_at("soprano"),
    pitch = colour_at("F4"),
    comment = colour_at("Windmill"),
  }
end

-- Figures as they are drawn between the notes.
local function hints()
  vim.lsp.inlay_hint.enable(true)
  wait("the hints", function()
    story.more.hints = vim.tbl_map(function(it)
      return it.inlay_hint.label
    end, vim.lsp.inlay_hint.get({ bufnr = buffer }))
    return #story.more.hints > 0
  end)
end

local function states()
  vim.lsp.codelens.refresh(vim.lsp.inlay_hint and { bufnr = buffer })
  wait("the states", function()
    story.more.states = vim.tbl_map(function(it)
      return it.command and it.command.title or ""
    end, vim.lsp.codelens.get(buffer))
    return #story.more.states > 0
  end)
end

-- The modifiers of the tokens of the first given note.
local function tokens()
  local line, column = unpack(vim.fn.searchpos("mill-song *| \\zsF4", "wn"))
  wait("the tokens", function()
    local found = vim.lsp.semantic_tokens.get_at_pos(buffer, line - 1, column - 1) or {}
    story.more.tokens = found[1] and vim.tbl_keys(found[1].modifiers) or {}
    return #story.more.tokens > 0
  end)
end

-- Neovim 0.7 knows no callback and fills the list of places.
local function outline()
  vim.lsp.buf.document_symbol(vim.lsp.inlay_hint and {
    on_list = function(list)
      story.more.outline = vim.tbl_map(function(it)
        return (it.text:gsub("^%[%w+%] ", ""))
      end, list.items)
    end,
  })
  wait("the outline", function()
    local listed = vim.tbl_map(function(it)
      return (it.text:gsub("^%[%w+%] ", ""))
    end, vim.fn.getqflist())
    story.more.outline = story.more.outline or (#listed > 0 and listed or nil)
    return story.more.outline
  end)
  vim.cmd("cclose")
end

local function definition()
  vim.fn.search("soprano cantus mill-song", "we")
  vim.lsp.buf.definition()
  wait("the definition", function()
    story.more.definitions = vim.fn.getline(".")
    return story.more.definitions:find("^cantus")
  end)
end

local function go_through()
  local version = vim.version()
  story.editor = ("Neovim %d.%d.%d"):format(version.major, version.minor, version.patch)
  wait("the findings", finding)
  story.findings = shown()
  colours()
  hover()
  mend()
  lay_out()
  wait("the end of the finding", function()
    return not finding() and #vim.diagnostic.get(buffer) > 0
  end)
  -- What is shown may still be for an earlier text; the last answer is for the last one.
  vim.wait(500)
  story.left = shown()
  if vim.lsp.inlay_hint then
    hints()
    tokens()
  end
  states()
  outline()
  definition()
  complete()
end

local ok, why = xpcall(go_through, debug.traceback)
story.why = why
tell()
vim.cmd(ok and "qall!" or "cquit 1")
