package verify

import (
	"fmt"

	"hourseal/record"
	"hourseal/sign"
)

// laterWords are what a record is that speaks of an earlier: in the sentence, and in
// full, with the earlier one's id.
var laterWords = map[record.Kind]struct{ sentence, full string }{
	record.Service: {"Nobody has checked that the work was done.", ""},
	record.Correction: {
		"It stands in the place of an earlier record. Nobody has checked that the work was done.",
		"A correction: it stands in the place of record %s. Ask for that one too, to see what was changed.",
	},
	record.Addendum: {
		"It adds to an earlier record, and is no service of its own. Nobody has checked what it says.",
		"An addendum: it adds to record %s. Read both; it is no service of its own.",
	},
	record.Void: {
		"It tells of no work: it declares that an earlier record does not count.",
		"A void: it declares that record %s does not count. The work that one describes is not claimed any more.",
	},
}

// aboutSections say what a record is that speaks of an earlier one; none for a service.
// Why, in the yard's words, is content.
func (r Result) aboutSections() []Section {
	subject := r.Signed.Subject
	if subject == nil {
		return nil
	}
	lines := []string{
		fmt.Sprintf(laterWords[r.Signed.Kind].full, sign.ID(subject.Record)),
		"It counts where the two have one signer; a stranger's word on another's record changes nothing.",
	}
	if r.Verdict.ShowsContent() {
		lines = append(lines, "Why: "+sentence(subject.Why))
	}
	return []Section{{"What it is", lines}}
}
