package dialogue_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/dialogue"
)

// A small script: how many there are, what each is, and whether they are heavy where
// one is a stone.
func things(a *dialogue.Asker) {
	n := a.Ask(dialogue.Question{Key: "many", Text: "How many", Offer: "1", Read: func(typed string) (string, error) {
		if strings.Trim(typed, "123") != "" {
			return "", fmt.Errorf("%q: type 1, 2 or 3", typed)
		}
		return typed, nil
	}})
	if n == "" {
		return
	}
	stones := false
	for i := range int(n[0] - '0') {
		q := dialogue.Question{Key: fmt.Sprintf("thing/%d", i), Text: "What", Dashed: "nothing"}
		thing := a.Ask(q)
		if thing == "air" {
			a.Refuse(q, "air cannot be held")
		}
		stones = stones || thing == "stone"
	}
	if stones {
		a.Say("A stone is in it.")
		a.Ask(dialogue.Question{Key: "heavy", Text: "Heavy"})
	}
	a.Say("That is all.")
}

func waiting(t *testing.T, d *dialogue.Dialogue, key string) dialogue.Question {
	t.Helper()
	q, waits := d.Next()
	if !waits || q.Key != key {
		t.Fatalf("%q waits (%v), want %q", q.Key, waits, key)
	}
	return q
}

func answer(t *testing.T, d *dialogue.Dialogue, typed string) {
	t.Helper()
	if err := d.Answer(typed); err != nil {
		t.Fatalf("%q: %v", typed, err)
	}
}

func TestInOrder(t *testing.T) {
	d := dialogue.New(things)
	waiting(t, d, "many")
	if err := d.Answer("many"); err == nil || !strings.Contains(err.Error(), "type 1, 2 or 3") {
		t.Errorf("a wrong answer: %v", err)
	}
	if err := d.Answer("-"); !errors.Is(err, dialogue.ErrNoDash) {
		t.Errorf("a dash: %v", err)
	}
	answer(t, d, "2")
	waiting(t, d, "thing/0")
	if err := d.Answer(""); !errors.Is(err, dialogue.ErrWanted) {
		t.Errorf("an empty line without an offer: %v", err)
	}
	answer(t, d, "-")
	answer(t, d, "stone")
	if q := waiting(t, d, "heavy"); !slices.Equal(q.Said, []string{"A stone is in it."}) {
		t.Errorf("said %q", q.Said)
	}
	answer(t, d, "very")
	q, waits := d.Next()
	if waits || !slices.Equal(q.Said, []string{"That is all."}) {
		t.Errorf("%v, said %q", waits, q.Said)
	}
	want := []dialogue.Kept{{Key: "many", Text: "2"}, {Key: "thing/0", Text: "-"}, {Key: "thing/1", Text: "stone"}, {Key: "heavy", Text: "very"}}
	if got := d.Kept(); !slices.Equal(got, want) {
		t.Errorf("kept %v", got)
	}
}

func TestEmptyLineTakesTheOffer(t *testing.T) {
	d := dialogue.New(things)
	answer(t, d, "")
	if got := d.Kept(); !slices.Equal(got, []dialogue.Kept{{Key: "many", Text: "1"}}) {
		t.Errorf("kept %v", got)
	}
}

// What the script refuses is not kept, and asked for again with the reason.
func TestRefused(t *testing.T) {
	d := dialogue.New(things)
	answer(t, d, "2")
	answer(t, d, "air")
	if q := waiting(t, d, "thing/0"); q.Fault != "air cannot be held" {
		t.Errorf("fault %q", q.Fault)
	}
	if len(d.Kept()) != 1 {
		t.Errorf("kept %v", d.Kept())
	}
	answer(t, d, "wood")
	if q := waiting(t, d, "thing/1"); q.Fault != "" {
		t.Errorf("fault %q", q.Fault)
	}
}

// Going back takes one answer after another away and offers each again.
func TestBack(t *testing.T) {
	d := dialogue.New(things)
	if d.Back() {
		t.Error("there is nothing before the first question")
	}
	answer(t, d, "2")
	answer(t, d, "stone")
	answer(t, d, "wood")
	waiting(t, d, "heavy")
	for range 2 {
		if !d.Back() {
			t.Fatal("no way back")
		}
	}
	if q := waiting(t, d, "thing/0"); q.Offer != "stone" {
		t.Errorf("offers %q", q.Offer)
	}
	answer(t, d, "leaf")
	if q := waiting(t, d, "thing/1"); q.Offer != "wood" { // taken back, too, and not given again
		t.Errorf("offers %q", q.Offer)
	}
	answer(t, d, "")
	if _, waits := d.Next(); waits {
		t.Error("nothing is heavy any more, and something is asked")
	}

	d = dialogue.New(things)
	answer(t, d, "2")
	answer(t, d, "stone")
	d.Back()
	d.Back()
	answer(t, d, "3")
	if q := waiting(t, d, "thing/0"); q.Offer != "stone" {
		t.Errorf("offers %q", q.Offer)
	}
}

// Whatever is typed, a session gone on with from its kept answers stands where the
// first one stood.
func TestGoneOnWith(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dialogue.New(things)
		for _, typed := range rapid.SliceOf(rapid.SampledFrom([]string{"", "1", "2", "3", "-", "air", "stone", "wood", "<"})).Draw(t, "typed") {
			if typed == "<" {
				d.Back()
			} else {
				_ = d.Answer(typed) // what is wrong is not kept
			}
			other := dialogue.New(things, d.Kept()...)
			q, waits := d.Next()
			again, waitsAgain := other.Next()
			if waits != waitsAgain || q.Key != again.Key {
				t.Fatalf("%q waits (%v), gone on with %q (%v)", q.Key, waits, again.Key, waitsAgain)
			}
			if !slices.Equal(d.Kept(), other.Kept()) {
				t.Fatalf("kept %v, gone on with %v", d.Kept(), other.Kept())
			}
		}
	})
}

// "<" leads to the question that can mend it, where a question names one; what was
// answered after that stays.
func TestBackTo(t *testing.T) {
	d := dialogue.New(func(a *dialogue.Asker) {
		a.Ask(dialogue.Question{Key: "one", Text: "One"})
		a.Ask(dialogue.Question{Key: "two", Text: "Two"})
		a.Ask(dialogue.Question{Key: "why", Text: "Why is one so", BackTo: "one"})
	})
	answer(t, d, "1")
	answer(t, d, "2")
	waiting(t, d, "why")
	d.Back()
	if q := waiting(t, d, "one"); q.Offer != "1" {
		t.Errorf("offers %q", q.Offer)
	}
	answer(t, d, "11")
	waiting(t, d, "why")
	if got := d.Kept(); len(got) != 2 {
		t.Errorf("kept %v", got)
	}
}

// What was said about another answer is not offered for the new one.
func TestChangedAnswerForgetsWhatHangsOnIt(t *testing.T) {
	d := dialogue.New(func(a *dialogue.Asker) {
		a.Ask(dialogue.Question{Key: "work", Text: "Work"})
		a.Ask(dialogue.Question{Key: "work/why", Text: "Why"})
	})
	answer(t, d, "clamp")
	answer(t, d, "loose")
	d.Back()
	d.Back()
	answer(t, d, "pump")
	if q := waiting(t, d, "work/why"); q.Offer != "" {
		t.Errorf("offers %q for other work", q.Offer)
	}
	d.Back()
	answer(t, d, "")
	waiting(t, d, "work/why")
}

// Answers that were taken back are kept, marked, and offered again by a session that is
// gone on with.
func TestTakenBackIsKept(t *testing.T) {
	d := dialogue.New(things)
	answer(t, d, "2")
	answer(t, d, "stone")
	answer(t, d, "wood")
	for range 3 {
		d.Back()
	}
	other := dialogue.New(things, d.Kept()...)
	if q := waiting(t, other, "many"); q.Offer != "2" {
		t.Errorf("offers %q", q.Offer)
	}
	answer(t, other, "")
	if q := waiting(t, other, "thing/0"); q.Offer != "stone" {
		t.Errorf("offers %q", q.Offer)
	}
}
