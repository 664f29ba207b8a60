package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"hourseal/record/jobsheet"
	"hourseal/render/plain"
	"hourseal/sign"
)

// Everything that is printed goes through here. Data go to standard output,
// words about the run to standard error; no control or format character of any
// input reaches a terminal.

const textWidth = 78

// say prints a line of the answer.
func (p *program) say(format string, args ...any) {
	p.clearProgress()
	fmt.Fprintln(p.stdout, clean(fmt.Sprintf(format, args...)))
}

// tell prints a line about the run, beside the answer.
func (p *program) tell(format string, args ...any) {
	p.clearProgress()
	fmt.Fprintln(p.stderr, clean(fmt.Sprintf(format, args...)))
}

// named prints what is said of a file: behind its name where that fits a terminal, else
// under it.
func (p *program) named(file, text string) {
	const columns = 80
	if line := clean(file + ": " + text); utf8.RuneCountInString(line) <= columns {
		p.say("%s", line)
		return
	}
	p.say("%s:", file)
	p.paragraph("  ", text)
}

// paragraph prints wrapped text, every line after the first indented by the
// hanging spaces.
func (p *program) paragraph(indent, text string) {
	p.clearProgress()
	for _, line := range wrap(clean(text), textWidth-utf8.RuneCountInString(indent)) {
		fmt.Fprintln(p.stdout, indent+line)
	}
}

// complain prints an error and what to do about it.
func (p *program) complain(err error) {
	var faults jobsheet.Faults
	var trustFaults sign.Faults
	switch {
	case errors.As(err, &faults):
		for _, f := range faults {
			p.tell("%s", f.Error())
		}
	case errors.As(err, &trustFaults):
		for _, f := range trustFaults {
			p.tell("%s", f.Error())
		}
	default:
		p.tell("hourseal: %s", err.Error())
	}
	if hint := hintOf(err); hint != "" {
		p.tell("  try: %s", hint)
	}
}

// json prints one value as one line.
func (p *program) json(value any) error {
	line, err := jsonLine(value)
	if err == nil {
		_, err = io.WriteString(p.stdout, line)
	}
	return err
}

// jsonLine is one value as one line. What a terminal would act on is escaped.
func jsonLine(value any) (string, error) {
	var line bytes.Buffer
	encoder := json.NewEncoder(&line)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil {
		return "", err
	}
	var out strings.Builder
	out.Grow(line.Len())
	for _, r := range line.String() {
		switch {
		case r == '\n' || ' ' <= r && r <= '~':
			out.WriteByte(byte(r))
		case unicode.IsPrint(r):
			out.WriteRune(r)
		default:
			for _, unit := range utf16.Encode([]rune{r}) {
				fmt.Fprintf(&out, `\u%04x`, unit)
			}
		}
	}
	return out.String(), nil
}

func writeLine(w io.Writer, line string) { fmt.Fprintln(w, strings.TrimRight(line, " ")) }

// clean makes text safe for a terminal. Newlines stay.
func clean(text string) string { return plain.Printable(text) }

// wrap breaks text at spaces into lines of at most width characters; a longer
// word has a line of its own.
func wrap(text string, width int) []string {
	var lines []string
	for paragraph := range strings.SplitSeq(text, "\n") {
		line := ""
		for word := range strings.FieldsSeq(paragraph) {
			switch {
			case line == "":
				line = word
			case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
				line += " " + word
			default:
				lines = append(lines, line)
				line = word
			}
		}
		lines = append(lines, line)
	}
	return lines
}
