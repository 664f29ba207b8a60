package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/urfave/cli/v2"

	"hourseal/record/dialogue"
)

// Questions are plain lines on standard error, one after another, and answers lines
// of standard input: nothing is drawn over, so that a screen reader and a pipe see
// what a terminal shows.

// mayAsk says whether questions can be put.
func (p *program) mayAsk(c *cli.Context) bool {
	return p.asks && !c.Bool(noInputFlag.Name) || c.Bool(askFlag.Name)
}

// maxAnswerBytes bounds what is read of one line.
const maxAnswerBytes = 4096

// typist reads what is typed.
type typist struct {
	p     *program
	lines *bufio.Reader
	echo  bool // what is read is not seen as it is typed
}

func (p *program) newTypist() *typist {
	return &typist{p: p, lines: bufio.NewReaderSize(p.stdin, maxAnswerBytes), echo: !p.asks}
}

// errEnded says that there is nothing more to read. What came last without an end of
// line is no answer: it may have been cut short.
var errEnded = errors.New("the input ended")

// line reads one line, without the blanks around it. A wrong one is told of and
// false.
func (t *typist) line() (string, bool, error) {
	raw, err := t.lines.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = t.lines.ReadSlice('\n')
		}
		if err == nil {
			t.p.words("  That line is too long.")
			return "", false, nil
		}
	}
	switch {
	case errors.Is(err, io.EOF):
		fmt.Fprintln(t.p.stderr)
		return "", false, errEnded
	case err != nil:
		return "", false, err
	}
	text := strings.TrimSpace(string(raw))
	if t.echo {
		fmt.Fprintln(t.p.stderr, clean(text))
	}
	if !utf8.ValidString(text) || strings.ContainsFunc(text, unicode.IsControl) {
		t.p.words("  There is a key in that line that is no character: type it once more.")
		return "", false, nil
	}
	return text, true, nil
}

// words prints wrapped text for whoever sits at the questions; what it is indented by
// holds for all its lines.
func (p *program) words(text string) {
	p.clearProgress()
	body := strings.TrimLeft(text, " ")
	indent := text[:len(text)-len(body)]
	for _, line := range wrap(clean(body), textWidth-len(indent)) {
		fmt.Fprintln(p.stderr, indent+line)
	}
}

// prompt prints a question, what an empty line stands for, and stays on its line.
func (p *program) prompt(q dialogue.Question) {
	text := q.Text
	switch {
	case q.Offer == dialogue.Dash:
		text += " [" + q.Dashed + "]"
	case q.Offer != "":
		text += " [" + q.Offer + "]"
	}
	lines := wrap(clean(text+":"), textWidth)
	for _, line := range lines[:len(lines)-1] {
		fmt.Fprintln(p.stderr, line)
	}
	fmt.Fprint(p.stderr, lines[len(lines)-1]+" ")
}

const back, explain = "<", "?"

// help explains a question.
func (p *program) help(q dialogue.Question) {
	for _, line := range q.Help {
		p.words("  " + line)
	}
	switch {
	case q.Offer == dialogue.Dash:
		p.words("  An empty line, or -, is: " + q.Dashed + ".")
	case q.Offer != "" && q.Dashed != "":
		p.words("  An empty line is: " + q.Offer + ". - is: " + q.Dashed + ".")
	case q.Offer != "":
		p.words("  An empty line is: " + q.Offer + ".")
	case q.Dashed != "":
		p.words("  - is: " + q.Dashed + ".")
	}
	p.words("  < goes back to the question before.")
}

// converse puts the questions of a dialogue until none waits. After each answer keep
// is called. The error is errEnded where the input ends before.
func (t *typist) converse(d *dialogue.Dialogue, keep func() error) error {
	for {
		err := t.converseOn(d, keep)
		if !errors.Is(err, errFirst) {
			return err
		}
		t.p.words("  This is the first question.")
	}
}

// converseOn is converse for a dialogue that others come before: the error is errFirst
// where the way back leads out of it.
func (t *typist) converseOn(d *dialogue.Dialogue, keep func() error) error {
	for {
		q, waits := d.Next()
		if q.Fault != "" {
			t.p.words("  " + q.Fault)
		} else {
			for _, line := range q.Said {
				t.p.words(line)
			}
		}
		if !waits {
			return nil
		}
		if err := t.answer(d, q); err != nil {
			return err
		}
		if err := keep(); err != nil {
			return err
		}
	}
}

// errFirst says that there is no question before.
var errFirst = errors.New("this is the first question")

// answer asks one question until it is answered or gone back from.
func (t *typist) answer(d *dialogue.Dialogue, q dialogue.Question) error {
	for {
		t.p.prompt(q)
		typed, ok, err := t.line()
		switch {
		case err != nil:
			return err
		case !ok:
		case typed == explain:
			t.p.help(q)
		case typed == back && d.Back():
			return nil
		case typed == back:
			return errFirst
		default:
			if err := d.Answer(typed); err == nil {
				return nil
			} else {
				t.p.words("  " + err.Error() + ". ? explains.")
			}
		}
	}
}

// choose asks for one of some letters; there is no answer without one, but for the
// offer where there is one.
func (t *typist) choose(text, offer string, letters ...string) (string, error) {
	for {
		t.p.prompt(dialogue.Question{Text: text, Offer: offer})
		typed, ok, err := t.line()
		if err != nil {
			return "", err
		}
		if typed == "" {
			typed = offer
		}
		for _, letter := range letters {
			if ok && strings.EqualFold(typed, letter) {
				return letter, nil
			}
		}
		if ok {
			t.p.words("  Type " + strings.Join(letters, " or ") + ".")
		}
	}
}
