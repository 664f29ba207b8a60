package main

import (
	_ "embed"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// Completion: a script for each shell asks the program itself what may come next, so
// that it knows the yard's machines, tasks and records.
//
//	hourseal complete SHELL -- WORD... CURRENT
//
// takes the words before the one that is being typed, and that as far as it is typed.
// The first line of the answer is "files" or "folders" where the shell is to complete
// such by itself, else "-"; each further line is a whole word, a tab, and what it is.
// It asks nothing, writes nothing and complains of nothing: where it knows nothing, it
// answers nothing.

//go:embed completion.bash
var bashCompletion string

//go:embed completion.zsh
var zshCompletion string

//go:embed completion.fish
var fishCompletion string

// completionScripts are the scripts, by shell.
var completionScripts = map[string]string{"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion}

// shells are those that there is a script for.
func shells() []string { return slices.Sorted(maps.Keys(completionScripts)) }

func (p *program) completionCommand() *cli.Command {
	return &cli.Command{
		Name: "completion", Usage: "print what makes the Tab key know commands, machines, tasks and records",
		ArgsUsage: "SHELL",
		Description: "For bash, zsh or fish, once:\n\n" +
			"  mkdir -p ~/.local/share/bash-completion/completions\n" +
			"  cd ~/.local/share/bash-completion/completions\n" +
			"  hourseal completion bash > hourseal\n\n" +
			"which the package bash-completion reads; without that package, in ~/.bashrc:\n\n" +
			"  source <(hourseal completion bash)\n\n" +
			"For zsh, in ~/.zshrc, behind the line with compinit:\n\n" +
			"  source <(hourseal completion zsh)\n\n" +
			"For fish:\n\n" +
			"  hourseal completion fish > ~/.config/fish/completions/hourseal.fish\n\n" +
			"The yard is found as by every command: --yard, HOURSEAL_YARD, this folder or one\nabove it.",
		Action: p.action(p.completion),
	}
}

func (p *program) completion(c *cli.Context) (exitCode, error) {
	if err := wantArgs(c, 1, 1, "shell"); err != nil {
		return exitUsage, err
	}
	script, known := completionScripts[c.Args().First()]
	if !known {
		return exitUsage, usageError{fmt.Sprintf("there is no completion for %q", c.Args().First()),
			"hourseal completion " + strings.Join(shells(), ", or hourseal completion ")}
	}
	_, err := io.WriteString(p.stdout, script)
	return exitOK, err
}

// completeCommand is asked by the scripts. The words that it is given are no options of
// its own: run answers it before any are looked for.
const completeCommand = "complete"

// candidate is a word that may come next, and what it is.
type candidate struct{ value, text string }

// complete answers a shell.
func (p *program) complete(args []string) {
	if len(args) < 3 || args[1] != "--" {
		return
	}
	words := args[2:]
	if args[0] == "bash" {
		for i := range words {
			words[i] = unquoted(words[i])
		}
	}
	a := p.asked(words)
	found, paths := a.answer()
	var b strings.Builder
	b.WriteString(paths.String() + "\n")
	for _, c := range found {
		if c.value != "" && clean(c.value) == c.value && !strings.ContainsAny(c.value, "\t\n") {
			b.WriteString(c.value + "\t" + short(c.text) + "\n")
		}
	}
	_, _ = io.WriteString(p.stdout, b.String()) // nobody is there to be told
}

// short is a description of one line that fits beside a word.
func short(text string) string {
	const most = 60
	text = strings.Join(strings.Fields(clean(text)), " ")
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most-3]) + "..."
	}
	return text
}

// unquoted is a word of bash as the command would get it, as far as quotes and
// backslashes go: what bash itself would put in stays as it is written.
func unquoted(word string) string {
	var b strings.Builder
	quote := rune(0)
	escaped := false
	for _, r := range word {
		switch {
		case escaped:
			if quote == '"' && !strings.ContainsRune("\"\\$`", r) {
				b.WriteByte('\\')
			}
			b.WriteRune(r)
			escaped = false
		case r == '\\' && quote != '\'':
			escaped = true
		case quote == 0 && (r == '\'' || r == '"'):
			quote = r
		case r == quote:
			quote = 0
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
