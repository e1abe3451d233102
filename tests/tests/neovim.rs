//! A real Neovim with our plugin and our server, on copies of the example jobs.

use plumbhook_tests::examples::copy_of_examples;
use plumbhook_tests::neovim::Neovim;
use plumbhook_tests::{process, programs};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

#[test]
fn an_overload_shows_while_it_is_typed_and_goes_when_it_is_mended() {
    let jobs = copy_of_examples();
    Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        cursor_on('7.6 t')
        type_keys('i4<Esc>')
        local it = wait_until_said('sling-rating')
        assert(it.severity == vim.diagnostic.severity.ERROR)
        assert(vim.fn.getline(it.line):find('^  legs'), it.line)
        assert(it.message:find('^rope%-32%-long%-4 .* of 10%.?0* t'), it.message)
        type_keys('u')
        wait_until_not_said('sling-rating')
        ",
    )
    .ends();
}

#[test]
fn a_line_that_is_half_typed_is_said_and_convicts_nobody() {
    let jobs = copy_of_examples();
    Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        cursor_on('7.6 t')
        type_keys('C7.6 t +/-<Esc>')
        local it = wait_until_said('line-not-read')
        assert(it.line == vim.fn.line('.'), it.line)
        assert(#said('sling-rating') == 0)
        type_keys('u')
        wait_until_not_said('line-not-read')
        ",
    )
    .ends();
}

#[test]
fn a_rating_typed_in_the_yard_shows_in_the_job_and_goes_when_the_yard_is_closed_unsaved() {
    let jobs = copy_of_examples();
    Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        local job = vim.fn.bufnr()
        open('yard/own-gear.pick')
        local yard = vim.fn.bufnr()
        cursor_on('vertical 10.0 t')
        type_keys('f0x')
        vim.cmd.buffer(job)
        local it = wait_until_said('sling-rating')
        assert(it.message:find(' of 1%.?0* t'), it.message)
        vim.cmd.bdelete({ yard, bang = true })
        wait_until_not_said('sling-rating')
        ",
    )
    .ends();
}

#[test]
fn hover_on_a_name_of_the_yard_tells_what_it_is_and_definition_goes_there() {
    let jobs = copy_of_examples();
    Neovim::start(
        jobs.path(),
        r"
        open('jobs/servomotor.pick')
        cursor_on('rope-32-long-4')
        vim.lsp.buf.hover()
        local window = wait_for('the hover', function()
          return vim.b.lsp_floating_preview
        end)
        local shown = vim.api.nvim_buf_get_lines(vim.api.nvim_win_get_buf(window), 0, -1, false)
        assert(table.concat(shown, '\n'):find('10.0 t', 1, true), vim.inspect(shown))

        vim.lsp.buf.definition()
        wait_for('the yard', function()
          return vim.fn.expand('%:t') == 'own-gear.pick'
        end)
        assert(vim.fn.getline('.'):find('^sling rope%-32%-long%-4'), vim.fn.getline('.'))
        ",
    )
    .ends();
}

#[test]
fn completion_offers_the_gear_of_the_yard_and_the_units_that_fit_on_a_half_typed_line() {
    let jobs = copy_of_examples();
    Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        cursor_on('by         hall-crane with four-leg')
        type_keys('Cby hall-crane with fo<Esc>')
        assert(vim.deep_equal(offered_behind('with fo'), { 'four-leg' }), 'rigging')

        cursor_on('mass       7.6 t')
        type_keys('Cmass 7.6 <Esc>')
        local units = offered_behind('7.6 ')
        assert(vim.tbl_contains(units, 't') and vim.tbl_contains(units, 'lb'), vim.inspect(units))
        assert(not vim.tbl_contains(units, 'mm'), vim.inspect(units))
        ",
    )
    .ends();
}

#[test]
fn results_stand_at_the_ends_of_lines_and_follow_the_text() {
    let jobs = copy_of_examples();
    Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        vim.lsp.inlay_hint.enable(true)
        local function at(line)
          for _, it in ipairs(vim.lsp.inlay_hint.get({ bufnr = 0 })) do
            if it.inlay_hint.position.line == line - 1 then
              return it.inlay_hint.label
            end
          end
        end
        cursor_on('legs       A B C D')
        local legs = vim.fn.line('.')
        local before = wait_for('the result of the legs', function() return at(legs) end)
        assert(before:find('sling%-rating .* of 10 t %(%d+ %%%)'), before)
        cursor_on('7.6 t')
        type_keys('i4<Esc>')
        local after = wait_for('an overload', function()
          local now = at(legs)
          return now and now:find('^over: ') and now
        end)
        assert(after:find('over: sling-rating', 1, true), after)
        ",
    )
    .ends();
}

#[test]
fn a_name_is_changed_in_the_yard_and_in_the_job_at_once() {
    let jobs = copy_of_examples();
    Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        cursor_on('rope-32-long-4')
        vim.lsp.buf.rename('rope-a')
        wait_for('the new name', function()
          return vim.fn.getline('.'):find('rope-a', 1, true)
        end)
        open('yard/own-gear.pick')
        cursor_on('sling rope-a')
        ",
    )
    .ends();
}

#[test]
fn quitting_leaves_no_process_behind() {
    let jobs = copy_of_examples();
    let told = Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        tell_processes()
        ",
    )
    .ends();
    assert_all_gone(&told.processes());
}

#[test]
fn a_neovim_that_is_killed_leaves_no_process_behind() {
    let jobs = copy_of_examples();
    let told = Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        tell_processes()
        tell('ready', 'now')
        wait_for('the end', function() end)
        ",
    )
    .killed_after("ready");
    assert_all_gone(&told.processes());
}

#[test]
fn neovim_is_told_what_the_command_line_says() {
    let jobs = copy_of_examples();
    let job = jobs.path().join("jobs/servomotor.pick");
    let text = fs::read_to_string(&job).unwrap();
    fs::write(
        &job,
        text.replace("7.6 t", "47.6 t") + "  colour     blue\n",
    )
    .unwrap();
    let expected = printed_by_check(jobs.path());
    assert!(expected.iter().any(|it| it.contains("sling-rating")));
    assert!(expected.iter().any(|it| it.contains("unknown-key")));
    fs::write(
        jobs.path().join("expected"),
        Vec::from_iter(expected).join("\n"),
    )
    .unwrap();
    Neovim::start(
        jobs.path(),
        "
        open('jobs/servomotor.pick')
        local expected = vim.fn.readfile('expected')
        local severity = { 'error', 'warning', 'not-yet-due' }
        wait_for('what check says: ' .. vim.inspect(expected), function()
          local told = {}
          for _, it in ipairs(vim.diagnostic.get()) do
            local file = vim.fs.relpath(vim.uv.cwd(), vim.api.nvim_buf_get_name(it.bufnr))
            local place = ('%s:%d:%d-%d'):format(file, it.lnum + 1, it.col + 1, it.end_col + 1)
            told[('%s %s %s'):format(place, it.code, severity[it.severity])] = true
          end
          told = vim.tbl_keys(told)
          table.sort(told)
          return vim.deep_equal(told, expected)
        end)
        ",
    )
    .ends();
}

/// Place, code and severity of everything that `plumbhook check` does not pass in silence.
#[expect(
    clippy::unwrap_used,
    reason = "a form other than the documented one fails the test"
)]
fn printed_by_check(folder: &Path) -> BTreeSet<String> {
    let output = Command::new(programs::plumbhook())
        .args(["check", "--format", "json"])
        .current_dir(folder)
        .output()
        .unwrap();
    let said: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(said["not_checked"], Value::Array(Vec::new()));
    let cases = said["cases"].as_array().unwrap();
    let checks = cases
        .iter()
        .flat_map(|case| case["checks"].as_array().unwrap());
    let notices = said["notices"].as_array().unwrap();
    checks
        .map(|check| (check, &check["rule"]))
        .chain(notices.iter().map(|notice| (notice, &notice["code"])))
        .filter(|(one, _)| one["severity"] != "quiet")
        .map(|(one, code)| {
            let place = &one["place"];
            let file = place["file"].as_str().unwrap();
            let (line, from, to) = (&place["line"], &place["column"], &place["end_column"]);
            let (code, severity) = (code.as_str().unwrap(), one["severity"].as_str().unwrap());
            format!("{file}:{line}:{from}-{to} {code} {severity}")
        })
        .collect()
}

fn assert_all_gone(processes: &[u32]) {
    assert!(!processes.is_empty(), "Neovim started no server");
    for &process in processes {
        let gone = process::wait_for(|| (!process::is_there(process)).then_some(()));
        assert!(gone.is_some(), "process {process} is still there");
    }
}

#[test]
fn colours_show_only_what_the_text_shows_by_itself() {
    let folder = tempfile::tempdir().unwrap();
    let told = Neovim::start(
        folder.path(),
        r#"
        vim.fn.writefile({
          'load cover "14 t # by mail"  # or 15',
          '  cg x -40 mm, z 1-1/8 in from d-204',
          '  wide 12\'-6 1/2" or rope-32 (24 m)',
        }, 'any.pick')
        vim.cmd.edit('any.pick')
        local at = function(line, text)
          local column = assert(vim.fn.getline(line):find(text, 1, true))
          local name = vim.fn.synIDattr(vim.fn.synID(line, column, 1), 'name')
          return (name:gsub('plumbhook', ''))
        end
        tell('seen', table.concat({
          at(1, 'load'), at(1, 'cover'), at(1, '"14'), at(1, '# by'), at(1, '# or'), at(1, '15'),
        }, ' '))
        tell('seen', table.concat({
          at(2, '-40'), at(2, 'mm'), at(2, '1-1/8'), at(2, '1/8'), at(2, '204'),
        }, ','))
        tell('seen', table.concat({
          at(3, "12'"), at(3, '"'), at(3, 'or'), at(3, '32'), at(3, '24'),
        }, ','))
        tell('comment', vim.bo.commentstring)
        "#,
    )
    .ends();
    assert_eq!(
        told.of("seen"),
        [
            "Entry  Text Text Comment Comment",
            "Number,,Number,Number,",
            "Number,,,,Number",
        ]
    );
    assert_eq!(told.of("comment"), ["# %s"]);
}
