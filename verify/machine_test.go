package verify_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/verify"
)

func TestCompareSerial(t *testing.T) {
	for _, c := range []struct {
		typed, recorded string
		want            verify.Match
	}{
		{"", "0045120", verify.NotAsked},
		{"  ", "0045120", verify.NotAsked},
		{" - ", "0045120", verify.NotAsked},
		{"0045120", "0045120", verify.Same},
		{"00 45-120", "0045120", verify.Same},
		{"0045120", "00-45 120", verify.Same},
		{"\t0045120\n", "0045120", verify.Same},
		{"00\u201145\u2013120\u00a0", "0045120", verify.Same},
		{"00\u221245120", "0045120", verify.Same},
		{"rg20-a", "RG20A", verify.Same},
		{"RG20A", "rg 20 a", verify.Same},
		{"45120", "0045120", verify.Probably},
		{"045120", "0045120", verify.Probably},
		{"0045120", "45120", verify.Probably},
		{"OO4512O", "0045120", verify.Probably},
		{"oo45i2o", "0045120", verify.Probably},
		{"RG2OA", "RG20A", verify.Probably},
		{"O", "0", verify.Probably},
		{"0", "000", verify.Probably},
		{"I", "1", verify.Probably},
		{"0", "-", verify.Different},
		{"0", "1", verify.Different},
		{"0045121", "0045120", verify.Different},
		{"0045120A", "0045120", verify.Different},
		{"00451200", "0045120", verify.Different},
		{"4512", "0045120", verify.Different},
		{"S045120", "5045120", verify.Different},
		{"B", "8", verify.Different},
		{"Z", "2", verify.Different},
		{"-", "-", verify.NotAsked},
		{"0045120", "-", verify.Different},
	} {
		if got := verify.CompareSerial(c.typed, c.recorded); got != c.want {
			t.Errorf("%q against %q: %d, want %d", c.typed, c.recorded, got, c.want)
		}
	}
}

func TestCompareSerialProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		serial := rapid.StringMatching(`[0-9A-Z]{1,12}`).Draw(t, "serial")
		spaced := ""
		for _, r := range serial {
			spaced += rapid.SampledFrom([]string{"", " ", "-"}).Draw(t, "gap") + string(r)
		}
		if got := verify.CompareSerial(strings.ToLower(spaced), serial); got != verify.Same {
			t.Fatalf("%q against %q: %d", spaced, serial, got)
		}
		if got := verify.CompareSerial("00"+serial, serial); got != verify.Probably {
			t.Fatalf("leading zeros of %q: %d", serial, got)
		}
		other := rapid.StringMatching(`[2-9A-HJ-NP-Z]{1,12}`).Draw(t, "other")
		another := rapid.StringMatching(`[2-9A-HJ-NP-Z]{1,12}`).Draw(t, "another")
		if got := verify.CompareSerial(other, another); (got == verify.Same) != (other == another) || got == verify.Probably {
			t.Fatalf("%q against %q: %d", other, another, got)
		}
		a, b := rapid.String().Draw(t, "a"), rapid.String().Draw(t, "b")
		if one, two := verify.CompareSerial(a, b), verify.CompareSerial(b, a); one != two && one != verify.NotAsked && two != verify.NotAsked {
			t.Fatalf("%q and %q: %d one way, %d the other", a, b, one, two)
		}
	})
}

// What the reader typed is compared; nothing is filled in from the record.
func TestAboutThisMachine(t *testing.T) {
	const ask = "Not compared. Read the serial number off the engine's plate and give it: --serial TEXT"
	const same = "The serial number that you gave is the record's."
	const behind = "The meter that you read shows fewer hours than the record: another machine, or another meter since."
	const ahead = "The meter that you read has run on since the record, or stands where it stood."
	moved := recordtest.Longest() // its meter reads 112.6, in total 812.6
	moved.Kind, moved.Subject = record.Service, nil
	stopped := recordtest.Example()
	stopped.Job.Meter = record.Meter{State: record.Stopped, Basis: "the skipper's log"}
	for _, c := range []struct {
		name     string
		record   *record.Record
		serial   string
		hours    string
		verdict  verify.Verdict
		sentence string
		lines    []string
	}{
		{"nothing asked", recordtest.Example(), "", "", verify.Genuine, genuineOnPaper, []string{ask}},
		{"same serial", recordtest.Example(), "004-5120", "", verify.Genuine, genuineOnPaper, []string{same}},
		{"probably the same", recordtest.Example(), "4512O", "", verify.Genuine,
			"Unaltered, and signed by Ellery Slip Boatyard. Nobody has checked that the work was done. The serial number is nearly, not quite, the one that you gave: look at the plate again. What the paper itself says was not compared.",
			[]string{"The serial number is probably the same; O and 0, I and 1 or leading zeros differ. Look at the plate again."}},
		{"other serial", recordtest.Example(), "0045121", "", verify.OtherMachine, otherSerial,
			[]string{"The serial number that you gave is not the record's. Look at the plate again; if you gave it rightly, this is about another machine."}},
		{"run on", recordtest.Example(), "", "900", verify.Genuine, genuineOnPaper, []string{ask, ahead}},
		{"stands", recordtest.Example(), "", "812.6", verify.Genuine, genuineOnPaper, []string{ask, ahead}},
		{"behind", recordtest.Example(), "0045120", "812.59", verify.OtherMachine, fewerHours, []string{same, behind}},
		{"other serial, and behind", recordtest.Example(), "7", "1", verify.OtherMachine, otherSerial,
			[]string{"The serial number that you gave is not the record's. Look at the plate again; if you gave it rightly, this is about another machine.", behind}},
		{"a new meter's reading", moved, "", "113", verify.Genuine, genuineOnPaper, []string{ask, ahead}},
		{"a new meter, behind", moved, "", "112", verify.OtherMachine, fewerHours, []string{ask, behind}},
		{"an estimate is no reading", stopped, "", "500", verify.Genuine, genuineOnPaper,
			[]string{ask, "The hours in the record are an estimate, because its meter did not run: the meter that you read was not compared."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			reader := buyer(t)
			reader.Serial = c.serial
			if c.hours != "" {
				reader.Hours = hours(t, c.hours)
			}
			got := verify.Run(seal(t, c.record, yardSeed).envelope, reader, noPage)
			wants(t, got, c.verdict, c.sentence)
			section := got.Sections(verify.Terminal)[2]
			if section.Heading != "Is it about this machine" || strings.Join(section.Lines, "\n") != strings.Join(c.lines, "\n") {
				t.Errorf("%s\n%s", section.Heading, strings.Join(section.Lines, "\n"))
			}
			for _, line := range section.Lines {
				for _, own := range []string{got.Signed.Machine.Serial, got.Signed.Machine.Model, quantity.Hours(81260).String()} {
					if strings.Contains(line, own) {
						t.Errorf("%q of the record is filled in: %s", own, line)
					}
				}
			}
		})
	}
}
