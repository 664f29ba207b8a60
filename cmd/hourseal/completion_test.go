package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"hourseal/record/recordtest/outside"
)

// Every command says what its arguments are, every option what its value is, and no row
// is of nothing.
func TestCompletionKnowsAll(t *testing.T) {
	used := map[string]bool{}
	for _, d := range allCommands((&program{}).app()) {
		kinds, known := argumentsOf[d.path]
		if len(d.Subcommands) > 0 {
			continue
		}
		used[d.path] = true
		if !known {
			t.Errorf("no row in argumentsOf for %q: %q", d.path, d.ArgsUsage)
		}
		if (len(kinds) == 0) != (d.ArgsUsage == "") {
			t.Errorf("%q takes %q, and its row has %d kinds", d.path, d.ArgsUsage, len(kinds))
		}
		for _, o := range optionsOf(d.Command) {
			if o.value == "" {
				continue
			}
			found := false
			for _, before := range []string{d.path + " ", ""} {
				for _, name := range o.names {
					if _, ok := valuesOf[before+name]; ok && !found {
						found, used[before+name] = true, true
					}
				}
			}
			if !found {
				t.Errorf("no row in valuesOf for %q of %q", o.names, d.path)
			}
		}
	}
	for name := range argumentsOf {
		if !used[name] {
			t.Errorf("argumentsOf has %q, which is no command", name)
		}
	}
	for name := range valuesOf {
		if !used[name] {
			t.Errorf("valuesOf has %q, which is no option", name)
		}
	}
}

// completed asks the program what may come next, and gives the kind of paths and the
// values.
func completed(t *testing.T, f folder, shell string, words ...string) (string, []string) {
	t.Helper()
	r := f.must(t, 0, append([]string{completeCommand, shell, "--"}, words...)...)
	if r.stderr != "" {
		t.Errorf("%q: it complains: %s", words, r.stderr)
	}
	lines := strings.Split(strings.TrimSuffix(r.stdout, "\n"), "\n")
	var values []string
	for _, line := range lines[1:] {
		value, _, _ := strings.Cut(line, "\t")
		values = append(values, value)
	}
	return lines[0], values
}

func TestComplete(t *testing.T) {
	f, _ := demonstrated(t)
	f.write(t, "jobs/.new-hidden.yaml", nil)
	f.write(t, "jobs/two\nlines.yaml", nil)
	for _, c := range []struct {
		words  []string
		paths  string
		values string
	}{
		{[]string{"work"}, "-", "worksheet"},
		{[]string{"key", "re"}, "-", "renew recovery revoke"},
		{[]string{"help", "key", "sh"}, "-", "show"},
		{[]string{"nothing", ""}, "-", ""},
		{[]string{"due", "gannet-p"}, "-", "gannet-port gannet-port-gearbox"},
		{[]string{"due", "gannet-port", "gannet-p"}, "-", "gannet-port-gearbox"},
		{[]string{"due", "--json", "--on", "2026-11-26", "gannet-s"}, "-", "gannet-starboard"},
		{[]string{"due", "--yar"}, "-", "--yard"},
		{[]string{"due", "--json", "--j"}, "-", ""},
		{[]string{"due", "--on", ""}, "-", ""},
		{[]string{"due", "--", "--j"}, "-", ""},
		{[]string{"due", "--ics", "x"}, "files", ""},
		{[]string{"due", "--yard", ""}, "folders", ""},
		{[]string{"label", "g"}, "-", "gannet-port/3 gannet-port/2 gannet-port/1"},
		{[]string{"label", "rec"}, "files", ""},
		{[]string{"label", "gannet-port/3", "--task", "o"}, "-", "oil-filter"},
		{[]string{"label", "gannet-port/3", "--task=o"}, "-", "--task=oil-filter"},
		{[]string{"label", "--size", ""}, "-", "62x29 40x40"},
		{[]string{"label", "gannet-port/3", ""}, "-", "gannet-port/3 gannet-port/2 gannet-port/1"},
		{[]string{"worksheet", "gannet-port", "--task", "imp"}, "-", "impeller"},
		{[]string{"worksheet", "gannet-port", "--drain", ""}, "-", "extractor plug"},
		{[]string{"check", ""}, "-", "jobs/1-gannet-port-2025-11-24.yaml jobs/2-gannet-port-2026-05-28.yaml jobs/3-gannet-port-2026-10-22.yaml"},
		{[]string{"check", "./"}, "files", ""},
		{[]string{"verify", ""}, "files", ""},
		{[]string{"init", ""}, "folders", ""},
		{[]string{"issue", "--corrects", "gannet-port/2"}, "-", "gannet-port/2"},
		{[]string{"schedule", "show", "diesel-inboard-"}, "-", "diesel-inboard-ellery"},
		{[]string{"fluid", "level", "--machine", "gannet-port", "--system", "c"}, "-", "coolant"},
		{[]string{"trust", "remove", "--trust", "trust.yaml", ""}, "-", "Ellery Slip Boatyard"},
		{[]string{"key", "revoke", "--why", ""}, "-", "retired compromised"},
		{[]string{"issue", "--why", ""}, "-", ""},
		{[]string{"key", "revoke", "--key", "k"}, "-", "keys/yard"},
		{[]string{"completion", ""}, "-", "bash fish zsh"},
		{[]string{"attach", "jobs/1-gannet-port-2025-11-24.yaml", ""}, "files", ""},
		{[]string{"closeout", "gannet-port", "--task", "bel"}, "-", "belt-look= belt="},
		{[]string{"closeout", "gannet-port", "--task", "belt=d"}, "-", "belt=done belt=defect belt=deferred"},
		{[]string{"closeout", "gannet-port", "--task=belt=o"}, "-", "--task=belt=ok"},
		{[]string{"closeout", "gannet-port", "--drained", "engine-oil=n"}, "-", "engine-oil=not measured"},
		{[]string{"closeout", "gannet-port", "--reason", "lay"}, "-", "lay-up"},
		{[]string{"waste", "--year", ""}, "-", "2026 2025 2024 2023 2022"},
	} {
		paths, values := completed(t, f, "fish", c.words...)
		if got := strings.Join(values, " "); paths != c.paths || got != c.values {
			t.Errorf("%q: %s, %q; want %s, %q", c.words, paths, got, c.paths, c.values)
		}
	}

	// From another folder, by --yard or HOURSEAL_YARD, and by a word in quotes of bash.
	elsewhere := newFolder(t)
	if _, values := completed(t, elsewhere, "zsh", "due", "gannet-s"); values != nil {
		t.Errorf("without a yard: %q", values)
	}
	if _, values := completed(t, elsewhere, "zsh", "due", "--yard", f.dir, "gannet-s"); !slices.Equal(values, []string{"gannet-starboard"}) {
		t.Errorf("--yard: %q", values)
	}
	if _, values := completed(t, elsewhere, "bash", "due", `--yard="`+f.dir+`"`, "gannet-s"); !slices.Equal(values, []string{"gannet-starboard"}) {
		t.Errorf("quoted --yard: %q", values)
	}
	elsewhere.env = []string{"HOURSEAL_YARD=" + f.dir}
	if _, values := completed(t, elsewhere, "zsh", "check", filepath.Join(f.dir, "jobs", "1")); len(values) != 1 {
		t.Errorf("HOURSEAL_YARD: %q", values)
	}
	elsewhere.dir, elsewhere.env = f.path("jobs"), nil
	if _, values := completed(t, elsewhere, "zsh", "check", "1-"); !slices.Equal(values, []string{"1-gannet-port-2025-11-24.yaml"}) {
		t.Errorf("in jobs: %q", values)
	}

	// What is broken is passed over, without a word, and nothing is written.
	f.write(t, "machines/gannet-port.yaml", []byte("no machine"))
	f.write(t, "records/gannet-port/0003.cose", []byte("no record"))
	if _, values := completed(t, f, "zsh", "label", "gannet-port/3"); !slices.Equal(values, []string{"gannet-port/3"}) {
		t.Errorf("a broken record: %q", values)
	}
	for _, args := range [][]string{{completeCommand}, {completeCommand, "bash"}, {completeCommand, "bash", "--"}, {completeCommand, "x", "--", "--=", "-"}} {
		if r := f.run(t, args...); r.code != 0 || r.stderr != "" {
			t.Errorf("%q: %s", args, r)
		}
	}
}

// mostForTab is how long the Tab key may take on the example, beside starting a process.
const mostForTab = 50 * time.Millisecond

func TestCompleteIsQuick(t *testing.T) {
	if !longRun() {
		t.Skip("timing: only with HOURSEAL_LONG=1")
	}
	f, _ := demonstrated(t)
	best := time.Hour
	for range 10 {
		began := time.Now()
		completed(t, f, "bash", "label", "")
		best = min(best, time.Since(began))
	}
	t.Logf("the records of the example: %v", best)
	if best > mostForTab {
		t.Errorf("it took %v, want under %v", best, mostForTab)
	}
}

func TestUnquoted(t *testing.T) {
	for typed, want := range map[string]string{
		`plain`: "plain", `with\ blank`: "with blank", `'one two`: "one two", `"one two`: "one two", `"a\"b\n"`: `a"b\n`, `'a\b'`: `a\b`, `a'b'"c"\'`: "abc'", `\`: "", ``: "",
	} {
		if got := unquoted(typed); got != want {
			t.Errorf("%s: %q, want %q", typed, got, want)
		}
	}
}

// oddJob is a job sheet's name that a shell would take apart.
const oddJob = `jobs/odd na'me $x.yaml`

// typedTab is a line with Tab at its end, and what the shell makes of it.
type typedTab struct{ line, becomes string }

// tabs are typed in each shell. How an odd name is quoted is the shell's own matter.
var tabs = []typedTab{
	{"hourseal wor", "hourseal worksheet "},
	{"hourseal due gannet-s", "hourseal due gannet-starboard "},
	{"hourseal label gannet-port/3 --task engine", "hourseal label gannet-port/3 --task engine-oil "},
	{"hourseal label gannet-port/3 --task=engine", "hourseal label gannet-port/3 --task=engine-oil "},
	{"hourseal closeout gannet-port --drained engine", "hourseal closeout gannet-port --drained engine-oil="},
	{"hourseal closeout gannet-port --task belt=do", "hourseal closeout gannet-port --task belt=done "},
	{"hourseal verify repo", "hourseal verify reports/"},
	{"hourseal verify --trust=tru", "hourseal verify --trust=trust.yaml "},
	{"hourseal trust remove --trust trust.yaml El", `hourseal trust remove --trust trust.yaml Ellery\ Slip\ Boatyard `},
	{"hourseal key revoke --why c", "hourseal key revoke --why compromised "},
}

// The script in a real fish, which says what it would offer.
func TestCompletionInFish(t *testing.T) {
	fish := outside.Program(t, "fish")
	f, _ := demonstrated(t)
	f.write(t, oddJob, nil)
	var script strings.Builder
	script.WriteString("hourseal completion fish | source\n")
	offered := append(slices.Clone(tabs), typedTab{"hourseal check jobs/o", "hourseal check " + oddJob}, typedTab{"hourseal due --yard rec", "hourseal due --yard records/"})
	for _, tab := range offered {
		fmt.Fprintf(&script, "echo '== ' (string join -- \\| (complete -C '%s'))\n", tab.line)
	}
	cmd := f.command()
	cmd.Path, cmd.Args = fish, []string{"fish", "--no-config", "-c", script.String()}
	r := ended(t, cmd)
	lines := strings.Split(strings.TrimSpace(r.stdout), "\n")
	if r.code != 0 || r.stderr != "" || len(lines) != len(offered) {
		t.Fatalf("%s", r)
	}
	for i, tab := range offered {
		whole := strings.TrimRight(strings.ReplaceAll(tab.becomes, `\ `, " "), " ")
		got, _, _ := strings.Cut(strings.TrimPrefix(lines[i], "==  "), "\t")
		if !strings.HasSuffix(whole, " "+got) && got != "worksheet" || got == "" {
			t.Errorf("%q: offered %q, want the end of %q", tab.line, lines[i], whole)
		}
	}
}

// onTab is a Python program that types lines into an interactive shell on a
// pseudo-terminal, each with Tab at its end, and prints what the line became.
const onTab = `
import fcntl, os, pty, re, select, struct, sys, termios
ready, begin, lines, command = sys.argv[1], sys.argv[2], sys.argv[3].split("|"), sys.argv[4:]
pid, fd = pty.fork()
if pid == 0:
    os.execvp(command[0], command)
fcntl.ioctl(fd, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 200, 0, 0))
def until(seen):
    shown = b""
    while not seen(shown.decode(errors="replace")):
        if not select.select([fd], [], [], 60)[0]:
            sys.exit("nothing more came: %r" % shown)
        shown += os.read(fd, 65536)
    return shown.decode(errors="replace")
os.write(fd, (begin + "; PS1='" + ready[:1] + "''" + ready[1:] + "'\n").encode())
until(lambda s: ready in s)
for line in lines:
    # What stands in the line is asked of the shell itself, by a key of ours.
    os.write(fd, line.encode() + b"\t\x18\x07")
    found = re.search("<<(.*?)>>", until(lambda s: ">>" in s), re.S)
    print(found.group(1))
os.write(fd, b"\x15exit\n")
`

// tabbed gives what each line became.
func tabbed(t *testing.T, f folder, begin string, lines []string, shell ...string) []string {
	t.Helper()
	cmd := f.command()
	cmd.Path = outside.Program(t, "python3")
	cmd.Args = append([]string{"python3", "-c", onTab, "READY>", begin, strings.Join(lines, "|")}, shell...)
	cmd.Env = append(cmd.Env, "TERM=xterm", "HISTFILE=/dev/null")
	r := ended(t, cmd)
	if r.code != 0 {
		t.Fatalf("%s", r)
	}
	return strings.Split(strings.TrimSuffix(r.stdout, "\n"), "\n")
}

func wantTabs(t *testing.T, want []typedTab, got []string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d lines: %q", len(got), got)
	}
	for i, tab := range want {
		if got[i] != tab.becomes {
			t.Errorf("%q becomes %q, want %q", tab.line, got[i], tab.becomes)
		}
	}
}

func tabLines(tabs []typedTab) []string {
	var lines []string
	for _, tab := range tabs {
		lines = append(lines, tab.line)
	}
	return lines
}

// The script in a real bash, the Tab key pressed: with the package bash-completion and
// without it.
func TestCompletionInBash(t *testing.T) {
	bash := outside.Program(t, "bash")
	f, _ := demonstrated(t)
	f.write(t, oddJob, nil)
	want := append(slices.Clone(tabs),
		typedTab{"hourseal check jobs/o", `hourseal check jobs/odd\ na\'me\ \$x.yaml `},
		typedTab{`hourseal check "jobs/o`, `hourseal check "jobs/odd na'me \$x.yaml" `},
		typedTab{`hourseal check 'jobs/o`, `hourseal check 'jobs/odd na'\''me $x.yaml' `},
		typedTab{"hourseal trust remove --trust=trust.yaml 'El", "hourseal trust remove --trust=trust.yaml 'Ellery Slip Boatyard' "})
	const show = `bind -x '"\C-x\C-g": printf "<<%s>>" "$READLINE_LINE"; READLINE_LINE='; source <(hourseal completion bash)`
	begins := []string{show}
	const library = "/usr/share/bash-completion/bash_completion"
	if _, err := os.Stat(library); err == nil {
		begins = append(begins, "source "+library+"; "+show)
	} else if outside.Required() {
		t.Error("bash-completion is required")
	}
	for _, begin := range begins {
		wantTabs(t, want, tabbed(t, f, begin, tabLines(want), bash, "--norc", "--noprofile", "-i"))
	}
}

func TestCompletionInZsh(t *testing.T) {
	zsh := outside.Program(t, "zsh")
	f, _ := demonstrated(t)
	f.write(t, oddJob, nil)
	want := append(slices.Clone(tabs),
		typedTab{"hourseal check jobs/o", `hourseal check jobs/odd\ na\'me\ \$x.yaml `},
		typedTab{`hourseal check "jobs/o`, `hourseal check "jobs/odd na'me \$x.yaml" `})
	const begin = `autoload -U compinit; compinit -u -D; source <(hourseal completion zsh); ` +
		`show() { print -rn -- "<<$BUFFER>>"; BUFFER= }; zle -N show; bindkey '^X^G' show`
	wantTabs(t, want, tabbed(t, f, begin, tabLines(want), zsh, "-f", "-i"))
}

// Each script says nothing when it is read, by the shell's own check of its form.
func TestCompletionScripts(t *testing.T) {
	f := newFolder(t)
	for _, shell := range shells() {
		path, err := exec.LookPath(shell)
		if err != nil {
			outside.Missing(t, shell)
		}
		script := f.must(t, 0, "completion", shell).stdout
		f.write(t, shell, []byte(script))
		if out, err := exec.Command(path, "-n", f.path(shell)).CombinedOutput(); err != nil || len(out) > 0 {
			t.Errorf("%s: %v %s", shell, err, out)
		}
	}
}
