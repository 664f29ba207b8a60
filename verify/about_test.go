package verify_test

import (
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify"
)

// TestLaterRecords: a genuine void, correction or addendum never reads like a service;
// it is said which record it is about, and why only where the content is shown.
func TestLaterRecords(t *testing.T) {
	about := record.ID{0x2a, 0x51}
	for kind, want := range map[record.Kind]struct{ sentence, first string }{
		record.Correction: {"It stands in the place of an earlier record. Nobody has checked that the work was done.", "A correction: it stands in the place of record " + sign.ID(about).String()},
		record.Addendum:   {"It adds to an earlier record, and is no service of its own. Nobody has checked what it says.", "An addendum: it adds to record " + sign.ID(about).String()},
		record.Void:       {"It tells of no work: it declares that an earlier record does not count.", "A void: it declares that record " + sign.ID(about).String() + " does not count."},
	} {
		r := recordtest.Example()
		r.Kind, r.Subject = kind, &record.Subject{Record: about, Why: "booked on the wrong engine"}
		envelope := seal(t, r, yardSeed).envelope
		got := verify.Run(envelope, buyer(t), noPage)
		wants(t, got, verify.Genuine, "Unaltered, and signed by Ellery Slip Boatyard. "+want.sentence+" What the paper itself says was not compared.")
		section := got.Sections(verify.Terminal)[0]
		said := strings.Join(section.Lines, "\n")
		if section.Heading != "What it is" || !strings.HasPrefix(said, want.first) || !strings.HasSuffix(said, "Why: Booked on the wrong engine.") {
			t.Errorf("%v: %s\n%s", kind, section.Heading, said)
		}
		// Of a stranger, what it is, and none of the words.
		stranger := verify.Run(envelope, verify.Reader{}, noPage)
		said = strings.Join(stranger.Sections(verify.Terminal)[0].Lines, "\n")
		if !strings.HasPrefix(said, want.first) || strings.Contains(said, "ooked on") {
			t.Errorf("%v of a stranger:\n%s", kind, said)
		}
	}
	service := verify.Run(seal(t, recordtest.Example(), yardSeed).envelope, buyer(t), noPage)
	if heading := service.Sections(verify.Terminal)[0].Heading; heading != "Who signed" {
		t.Errorf("a service begins with %q", heading)
	}
}

// TestHoursOfAVoid: they are no reading, and are held to no meter.
func TestHoursOfAVoid(t *testing.T) {
	r := recordtest.Example()
	r.Kind, r.Subject = record.Void, &record.Subject{Why: "booked on the wrong engine"}
	r.Job.Meter = record.Meter{State: record.NoMeter, Basis: "as in record 2, nothing was read"}
	reader := buyer(t)
	reader.Hours = hours(t, "500")
	got := verify.Run(seal(t, r, yardSeed).envelope, reader, noPage)
	const want = "The hours in the record are those of the record that it declares void: the meter that you read was not compared."
	if got.Verdict != verify.Genuine || !strings.Contains(strings.Join(got.Sections(verify.Terminal)[3].Lines, "\n"), want) {
		t.Errorf("%v: %v", got.Verdict, got.Sections(verify.Terminal)[3])
	}
}
