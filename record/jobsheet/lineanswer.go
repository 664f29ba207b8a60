package jobsheet

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
)

const answerWanted = "the advice, the owner's word and the date told, as next-service, agreed, 2026-05-04"

// Letters that stand for the words of an answer: none is in both.
var (
	adviceLetters = map[string]string{"b": "before-use", "n": "next-service", "m": "monitor"}
	ownerLetters  = map[string]string{"a": "agreed", "d": "declined", "w": "awaiting"}
)

// LineAnswer reads the advice, the owner's word and the date on which the owner was
// told, in any order and any of them left out: "next-service, agreed, 2026-05-04". The
// letters b, n, m stand for before-use, next-service, monitor, and a, d, w for agreed,
// declined, awaiting: "n a". Why is no part of it.
func LineAnswer(text string) (record.Answer, error) {
	l, err := readLine(text, answerWanted)
	if err != nil {
		return record.Answer{}, err
	}
	return l.answer()
}

func (l typed) answer() (record.Answer, error) {
	var a record.Answer
	words := strings.FieldsFunc(strings.ToLower(l.text), func(r rune) bool { return isGap(r) || r == ',' })
	for i := 0; i < len(words); i++ {
		word := words[i]
		if i+1 < len(words) && slices.Contains(record.AdviceWords, word+"-"+words[i+1]) {
			word += "-" + words[i+1] // next service
			i++
		}
		if err := answerWord(&a, word); err != nil {
			return record.Answer{}, err
		}
	}
	if a == (record.Answer{}) {
		return a, errors.New("nothing written: write " + answerWanted)
	}
	return a, nil
}

func answerWord(a *record.Answer, word string) error {
	if isWhole(word[:1]) {
		date, err := quantity.ParseDate(word)
		if err == nil && a.Told != nil {
			err = fmt.Errorf("two dates, %v and %v: keep one", *a.Told, date)
		}
		a.Told = &date
		return err
	}
	advice, isLetter := adviceLetters[word]
	if !isLetter {
		advice = word
	}
	if i := slices.Index(record.AdviceWords, advice); i >= 0 {
		if a.Advice != 0 {
			return fmt.Errorf("advice twice, %v and %s: keep one", a.Advice, advice)
		}
		a.Advice = record.Advice(i + 1)
		return nil
	}
	owner, isLetter := ownerLetters[word]
	if !isLetter {
		owner = word
	}
	if i := slices.Index(record.OwnerWords, owner); i >= 0 {
		if a.Owner != 0 {
			return fmt.Errorf("the owner's word twice, %v and %s: keep one", a.Owner, owner)
		}
		a.Owner = record.OwnerAnswer(i + 1)
		return nil
	}
	return fmt.Errorf("%s: %s, or the date told", show(word), instead(word, slices.Concat(record.AdviceWords, record.OwnerWords)))
}

// AnswerLine is the inverse of LineAnswer.
func AnswerLine(a record.Answer) string {
	var words []string
	if a.Advice != 0 {
		words = append(words, a.Advice.String())
	}
	if a.Owner != 0 {
		words = append(words, a.Owner.String())
	}
	if a.Told != nil {
		words = append(words, a.Told.String())
	}
	return strings.Join(words, ", ")
}

// whyAndAnswer reads what stands after the first bar of a line: why, and after another
// bar the answer. Nil where nothing is said.
func whyAndAnswer(pieces []typed) (*record.Answer, error) {
	if len(pieces) > 2 {
		return nil, errors.New(`a bar too many: write why after the first and the answer after the second, and a text with a bar in quotes`)
	}
	var a record.Answer
	var err error
	if len(pieces) == 2 && !pieces[1].empty() {
		if a, err = pieces[1].answer(); err != nil {
			return nil, err
		}
	}
	if len(pieces) > 0 && !pieces[0].empty() {
		if a.Why, err = pieces[0].value("why", reason); err != nil {
			return nil, err
		}
	}
	if a == (record.Answer{}) {
		return nil, nil
	}
	return &a, nil
}

// barsLine is the inverse of whyAndAnswer, with the bars.
func barsLine(a *record.Answer, word func(string) string) string {
	if a == nil {
		return ""
	}
	line := " |"
	if a.Why != "" {
		line += " " + word(a.Why)
	}
	if said := AnswerLine(*a); said != "" {
		line += " | " + said
	}
	return line
}

const lineSeenWanted = "nothing, or what of water, metal, fuel, then why and the answer after bars, as water, metal | milky | next-service, agreed, 2026-05-04"

// LineSeen reads what was seen in what was drained, and after bars why and the answer:
// "nothing", "water, metal", "metal | filings on the plug | next-service, agreed,
// 2026-05-04".
func LineSeen(text string) ([]record.Sight, *record.Answer, error) {
	l, err := readLine(text, lineSeenWanted)
	if err != nil {
		return nil, nil, err
	}
	pieces := l.split(l.marks('|'))
	var saw []record.Sight
	for _, w := range strings.FieldsFunc(pieces[0].text, func(r rune) bool { return isGap(r) || r == ',' }) {
		if strings.EqualFold(w, "and") {
			continue
		}
		sight, err := oneWord[record.Sight](record.SightWords)(w)
		switch {
		case err != nil:
			return nil, nil, err
		case slices.Contains(saw, sight):
			return nil, nil, fmt.Errorf("%s is written twice: keep one", show(w))
		}
		saw = append(saw, sight)
	}
	answer, err := whyAndAnswer(pieces[1:])
	switch {
	case err != nil:
		return nil, nil, err
	case len(saw) == 0:
		return nil, nil, errors.New("nothing written: write " + lineSeenWanted)
	case slices.Contains(saw, record.SawNothing) && (len(saw) > 1 || answer != nil):
		return nil, nil, errors.New("nothing, beside what was seen or an answer to it: keep one of the two")
	}
	return saw, answer, nil
}

// sawAnswer is what LineSeen reads.
type sawAnswer struct {
	saw    []record.Sight
	answer *record.Answer
}

// SeenLine is the inverse of LineSeen.
func SeenLine(saw []record.Sight, answer *record.Answer) string {
	words := make([]string, len(saw))
	for i, s := range saw {
		words[i] = s.String()
	}
	if len(words) == 0 {
		return ""
	}
	return inverse(sawAnswer{saw, answer}, func(word func(string) string) string {
		return strings.Join(words, ", ") + barsLine(answer, word)
	}, func(line string) (sawAnswer, error) {
		saw, answer, err := LineSeen(line)
		return sawAnswer{saw, answer}, err
	})
}

const lineOtherWorkWanted = "the result, a colon and what was done, as done: Tightened the exhaust clamp"

// LineOtherWork reads work that is no task of the schedule: "done: Tightened the exhaust
// clamp", "done by Slipway Pumps: Rebuilt the pump", and after bars why and the answer:
// "deferred: Hose weeps | part on order | next-service, agreed, 2026-05-04".
func LineOtherWork(line string) (record.OtherWork, error) {
	l, err := readLine(line, lineOtherWorkWanted)
	if err != nil {
		return record.OtherWork{}, err
	}
	pieces := l.split(l.marks('|'))
	head := pieces[0]
	colons := head.marks(':')
	if len(colons) == 0 {
		return record.OtherWork{}, fmt.Errorf("%s: write %s", show(l.text), lineOtherWorkWanted)
	}
	var w record.OtherWork
	if w.Result, w.DoneBy, err = head.sub(0, colons[0]).result(); err != nil {
		return record.OtherWork{}, err
	}
	if w.Text, err = head.sub(colons[0]+1, len(head.text)).value("text", reason); err != nil {
		return record.OtherWork{}, err
	}
	if w.Answer, err = whyAndAnswer(pieces[1:]); err != nil {
		return record.OtherWork{}, err
	}
	return w, nil
}

// OtherWorkLine is the inverse of LineOtherWork.
func OtherWorkLine(w record.OtherWork) string {
	if w.Result == 0 || w.Text == "" {
		return ""
	}
	return inverse(w, func(word func(string) string) string {
		line := w.Result.String()
		if w.DoneBy != "" {
			line += " by " + word(w.DoneBy)
		}
		return line + ": " + word(w.Text) + barsLine(w.Answer, word)
	}, LineOtherWork)
}
