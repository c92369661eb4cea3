-- Reads a list of texts and writes for each the stretches that the highlighting queries name, and
-- how many stretches can be folded away. The paths come from the environment.
local texts = vim.json.decode(table.concat(vim.fn.readfile(os.getenv("BICINIUM_TEXTS")), "\n"))
vim.treesitter.language.add("bicinium", { path = os.getenv("BICINIUM_PARSER") })

-- The class that each capture stands for.
local classes = {
  comment = "comment",
  keyword = "keyword",
  type = "role",
  ["type.builtin"] = "mode",
  label = "name",
  number = "number",
  string = "text",
  ["punctuation.delimiter"] = "barline",
  ["punctuation.bracket"] = "group",
  operator = "hold",
  ["constant.macro"] = "hole",
  ["constant.builtin"] = "rest",
  constant = "pitch",
  ["function"] = "numeral",
}

local function captured(query, root, text)
  local found = {}
  for id, node in query:iter_captures(root, text) do
    local _, _, start, _, _, stop = node:range(true)
    table.insert(found, { start = start, ["end"] = stop, class = assert(classes[query.captures[id]]) })
  end
  return found
end

local function count(query, root, text)
  local found = 0
  for _ in query:iter_captures(root, text) do
    found = found + 1
  end
  return found
end

local highlights = assert(vim.treesitter.query.get("bicinium", "highlights"))
local folds = assert(vim.treesitter.query.get("bicinium", "folds"))
assert(vim.treesitter.query.get("bicinium", "indents"))

local answers = {}
for _, text in ipairs(texts) do
  local root = vim.treesitter.get_string_parser(text, "bicinium"):parse()[1]:root()
  local stretches = captured(highlights, root, text)
  table.insert(answers, {
    stretches = stretches,
    folds = count(folds, root, text),
  })
end
vim.fn.writefile({ vim.json.encode(answers) }, os.getenv("BICINIUM_ANSWERS"))
vim.cmd("qall!")
