-- What the steps of a test are written with. Waits are for a condition, never for a time.

assert(vim.fn.has('nvim-0.11') == 1, 'Neovim 0.11 or later is needed, this is ' .. tostring(vim.version()))

local LIMIT_MS = 60000

--- Waits until `done` gives something, and gives it.
function wait_for(what, done)
  local value
  local came = vim.wait(LIMIT_MS, function()
    value = done()
    return value ~= nil and value ~= false
  end, 10)
  if not came then
    local shown = vim.inspect(vim.diagnostic.get(), { depth = 3 })
    error(('%s did not come in %d s; the diagnostics now: %s'):format(what, LIMIT_MS / 1000, shown))
  end
  return value
end

--- Opens a file as `:edit` does and waits until the server has it.
function open(file)
  vim.cmd.edit(file)
  wait_for('the server', function()
    local client = vim.lsp.get_clients({ bufnr = 0, name = 'plumbhook' })[1]
    return client and client.initialized
  end)
end

--- Puts the cursor on the only place of a text.
function cursor_on(text)
  local pattern = '\\V' .. vim.fn.escape(text, '\\')
  vim.fn.cursor(1, 1)
  assert(vim.fn.search(pattern, 'cW') > 0, text .. ' stands nowhere in ' .. vim.fn.bufname())
  local place = vim.fn.getcurpos()
  assert(vim.fn.search(pattern, 'W') == 0, text .. ' stands more than once in ' .. vim.fn.bufname())
  vim.fn.setpos('.', place)
end

--- Types in normal mode.
function type_keys(keys)
  vim.api.nvim_feedkeys(vim.keycode(keys), 'xt', false)
end

--- What is said of this buffer by one rule, as `line: message`, lines counted from 1.
function said(code)
  local found = {}
  for _, it in ipairs(vim.diagnostic.get(0)) do
    if it.code == code then
      table.insert(found, { line = it.lnum + 1, message = it.message, severity = it.severity })
    end
  end
  return found
end

function wait_until_said(code)
  return wait_for(code, function()
    return said(code)[1]
  end)
end

function wait_until_not_said(code)
  wait_for('the end of ' .. code, function()
    return #said(code) == 0
  end)
end

--- What Neovim's own omnifunc offers behind a text of the line with the cursor. A headless Neovim has no insert mode
--- that waits, so the menu is read where Neovim would open it.
function offered_behind(text)
  vim.o.virtualedit = 'onemore'
  local _, column = vim.api.nvim_get_current_line():find(text, 1, true)
  assert(column, text .. ' is not in the line')
  vim.api.nvim_win_set_cursor(0, { vim.fn.line('.'), column })
  local mode, complete = vim.api.nvim_get_mode, vim.fn.complete
  local found
  vim.api.nvim_get_mode = function()
    return { mode = 'i', blocking = false }
  end
  vim.fn.complete = function(_, items)
    found = vim.tbl_map(function(it)
      return it.abbr
    end, items)
  end
  local begun, why = pcall(vim.lsp.omnifunc, 1, '')
  local came = begun and pcall(wait_for, 'the menu', function()
    return found
  end)
  vim.api.nvim_get_mode, vim.fn.complete = mode, complete
  assert(came, why)
  return found
end

--- Tells the test that runs us a fact.
function tell(what, value)
  local file = assert(io.open(vim.env.PLUMBHOOK_TOLD, 'a'))
  file:write(what, ' ', tostring(value), '\n')
  file:close()
end

--- Tells which processes Neovim started: the server.
function tell_processes()
  for _, process in ipairs(vim.api.nvim_get_proc_children(vim.fn.getpid())) do
    tell('process', process)
  end
end

local ok, why = xpcall(function()
  dofile(vim.env.PLUMBHOOK_STEPS)
end, debug.traceback)
if ok then
  vim.cmd('qall!')
else
  tell('failed', why)
  vim.cmd('cquit 1')
end
