package verify_test

import (
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify"
)

// The example was issued on 2026-05-04. What the reader knows of the key on that
// day decides, in these words.
func TestWhoSigned(t *testing.T) {
	const by = "Signed with a key of Ellery Slip Boatyard that was not valid for its date "
	const intact = ", though it is unaltered since it was signed."
	const stolen = "Signed with a key of Ellery Slip Boatyard that others may have, since 2026-05-05 at the latest; nothing but its own word says that it is older" + intact
	revoked := func(from string, why sign.RevokedWhy) *sign.Revocation {
		return &sign.Revocation{From: *day(t, from), Why: why}
	}
	for _, c := range []struct {
		name     string
		entry    *sign.Trusted // nil: the reader does not know the key
		verdict  verify.Verdict
		sentence string
		who      string // a line of "Who signed"
	}{
		{"unknown", nil, verify.UnknownSigner, unknownSigner,
			"We do not know who made this. Anyone can make such a file. Ring the yard on a number you found yourself and ask for its fingerprint."},
		{"no dates", &sign.Trusted{}, verify.Genuine, genuineOnPaper, "Ellery Slip Boatyard: the name that you gave this key."},
		{"from that day", &sign.Trusted{From: day(t, "2026-05-04")}, verify.Genuine, genuineOnPaper,
			"Ellery Slip Boatyard: the name that you gave this key, trusted from 2026-05-04."},
		{"from the next", &sign.Trusted{From: day(t, "2026-05-05")}, verify.KeyNotValid, by + "(you trust it from 2026-05-05)" + intact,
			"The key was not valid on the day of issue that the record gives: you trust it from 2026-05-05. Ask the yard for a report under a key that is."},
		{"until that day", &sign.Trusted{Until: day(t, "2026-05-04")}, verify.Genuine, genuineOnPaper,
			"Ellery Slip Boatyard: the name that you gave this key, until 2026-05-04."},
		{"until the day before", &sign.Trusted{Until: day(t, "2026-05-03")}, verify.KeyNotValid, by + "(you trust it until 2026-05-03)" + intact,
			"The key was not valid on the day of issue that the record gives: you trust it until 2026-05-03. Ask the yard for a report under a key that is."},
		{"retired later", &sign.Trusted{Revoked: revoked("2026-05-05", sign.WhyRetired)}, verify.Genuine, genuineOnPaper,
			"The key is no longer used: revoked from 2026-05-05, retired."},
		{"retired that day", &sign.Trusted{Revoked: revoked("2026-05-04", sign.WhyRetired)}, verify.KeyNotValid, by + "(revoked from 2026-05-04, retired)" + intact,
			"The key was not valid on the day of issue that the record gives: revoked from 2026-05-04, retired. Ask the yard for a report under a key that is."},
		{"retired before, and trusted until later", &sign.Trusted{Until: day(t, "2029-12-31"), Revoked: revoked("2026-01-01", sign.WhyRetired)}, verify.KeyNotValid,
			by + "(revoked from 2026-01-01, retired)" + intact,
			"The key was not valid on the day of issue that the record gives: revoked from 2026-01-01, retired. Ask the yard for a report under a key that is."},
		{"trusted until before, revoked later", &sign.Trusted{Until: day(t, "2026-04-30"), Revoked: revoked("2027-01-01", sign.WhyCompromised)}, verify.KeyNotValid,
			by + "(you trust it until 2026-04-30)" + intact,
			"The key was not valid on the day of issue that the record gives: you trust it until 2026-04-30. Ask the yard for a report under a key that is."},
		{"compromised later", &sign.Trusted{Revoked: revoked("2026-05-05", sign.WhyCompromised)}, verify.KeyNotValid, stolen,
			"The key was revoked from 2026-05-05: compromised. Whoever has it can write any earlier date, so the date in the record proves nothing."},
		{"compromised that day", &sign.Trusted{Revoked: revoked("2026-05-04", sign.WhyCompromised)}, verify.KeyNotValid, by + "(revoked from 2026-05-04, compromised)" + intact,
			"The key was not valid on the day of issue that the record gives: revoked from 2026-05-04, compromised. Ask the yard for a report under a key that is."},
		{"compromised and not yet", &sign.Trusted{From: day(t, "2026-06-01"), Revoked: revoked("2026-01-01", sign.WhyCompromised)}, verify.KeyNotValid, by + "(revoked from 2026-01-01, compromised)" + intact, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			reader := verify.Reader{Trust: sign.TrustList{{Name: "Harbour Electrics", Key: keyOf(t, strangerSeed).Public()}}}
			if c.entry != nil {
				entry := *c.entry
				entry.Name, entry.Key = yardName, keyOf(t, yardSeed).Public()
				reader.Trust = append(reader.Trust, entry)
			}
			got := verify.Run(example(t).envelope, reader, noPage)
			wants(t, got, c.verdict, c.sentence)
			if got.Signer.Known != (c.entry != nil) || got.Signer.ValidForDate() != (c.verdict == verify.Genuine) {
				t.Errorf("known %t, valid %t", got.Signer.Known, got.Signer.ValidForDate())
			}
			if who := strings.Join(got.Sections(verify.Terminal)[0].Lines, "\n"); !strings.Contains("\n"+who+"\n", "\n"+c.who+"\n") && c.who != "" {
				t.Errorf("%q is no line of\n%s", c.who, who)
			}
			if fingerprint := "Key " + keyOf(t, yardSeed).Public().Fingerprint(); !strings.HasPrefix(got.Sections(verify.Terminal)[0].Lines[1], fingerprint) {
				t.Errorf("the second line is not the fingerprint: %s", got.Sections(verify.Terminal)[0].Lines[1])
			}
		})
	}
}

// An owner's and a surveyor's record says so, whatever the verdict.
func TestOwnerAndSurveyorAreNamed(t *testing.T) {
	expired := sign.TrustList{{Name: "Mara Quill", Key: keyOf(t, yardSeed).Public(), Until: day(t, "2026-01-01")}}
	known := sign.TrustList{{Name: "Mara Quill", Key: keyOf(t, yardSeed).Public()}}
	for kind, words := range map[record.IssuerKind]struct{ known, unknown, line string }{
		record.YardIssuer:     {"Mara Quill", "We do not know who signed this,", ""},
		record.OwnerIssuer:    {"Mara Quill, the owner", "We do not know who signed this as the owner,", "no yard vouches for the work"},
		record.SurveyorIssuer: {"Mara Quill, a surveyor", "We do not know who signed this as a surveyor,", "a surveyor's record"},
	} {
		r := recordtest.Example()
		r.Issuer.Kind = kind
		sealed := seal(t, r, yardSeed)
		run := func(reader verify.Reader, data []byte) verify.Result { return verify.Run(data, reader, makePage) }
		for _, c := range []struct {
			got  verify.Result
			want string
		}{
			{run(verify.Reader{Trust: known}, sealed.envelope), words.known + ". Nobody has checked"},
			{run(verify.Reader{}, sealed.envelope), words.unknown},
			{run(verify.Reader{Trust: expired}, sealed.envelope), "a key of " + words.known + " that was not valid"},
			{run(verify.Reader{Trust: known, Serial: "7"}, sealed.envelope), "signed by " + words.known + "."},
			{run(verify.Reader{Trust: known}, editedPage(t, sealed)), "signed by " + words.known + "."},
		} {
			if !strings.Contains(c.got.Sentence(), c.want) {
				t.Errorf("%s: %q is not in %q", kind, c.want, c.got.Sentence())
			}
			if said := strings.Join(c.got.Sections(verify.Terminal)[0].Lines, "\n"); !strings.Contains(said, words.line) || words.line == "" && strings.Contains(said, "by its own word") {
				t.Errorf("%s: %q in\n%s", kind, words.line, said)
			}
		}
	}
}

// The signer's own name for themselves is never the answer to "who signed".
func TestNameIsTheReaders(t *testing.T) {
	sealed := example(t)
	got := verify.Run(sealed.envelope, verify.Reader{Trust: sign.TrustList{{Name: "the blue shed", Key: keyOf(t, yardSeed).Public()}}}, noPage)
	for _, line := range append(got.Sections(verify.Terminal)[0].Lines, got.Sentence()) {
		if strings.Contains(line, sealed.record.Issuer.Name) {
			t.Errorf("the record's own name is in %q", line)
		}
	}
	if !strings.Contains(got.Sentence(), "the blue shed") {
		t.Error(got.Sentence())
	}
}
