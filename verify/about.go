package verify

import "hourseal/sign"

// aboutSections say what a record is that speaks of an earlier one; none for a service.
// Why, in the yard's words, is content.
func (r Result) aboutSections() []Section {
	subject := r.Signed.Subject
	if subject == nil {
		return nil
	}
	lines := []string{
		laterWords[r.Signed.Kind].full.with("id", sign.ID(subject.Record).String()),
		strangersWord.with(),
	}
	if r.Verdict.ShowsContent() {
		lines = append(lines, whyItSpeaks.with("why", sentence(subject.Why)))
	}
	return []Section{{headWhat.with(), lines}}
}
