package verify_test

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// exampleList is the yard's list for the Gannet's port engine.
func exampleList() *list.List {
	m := recordtest.Example().Machine
	return &list.List{
		Format: list.Format, Machine: list.Machine{Make: m.Make, Model: m.Model, Serial: m.Serial, Vessel: m.Vessel},
		Issuer: record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer},
		Ends:   []list.End{{Number: 7, ID: record.ID{0xa0}}}, Count: 7,
		Until: quantity.FromYMD(2026, 11, 2), For: "Marlin Cover, claim 4471", IssuedAt: 1_793_637_000,
	}
}

func sealList(t testing.TB, l *list.List, seed byte) []byte {
	t.Helper()
	return must[[]byte](t)(sign.Seal(sign.ListV1, must[[]byte](t)(list.Encode(l)), keyOf(t, seed)))
}

const (
	listSentence  = "Unaltered, and signed by Ellery Slip Boatyard: a list of all records that it says it holds of this machine until 2026-11-02. Nobody has checked that it is complete."
	emptySentence = "Unaltered, and signed by Ellery Slip Boatyard: its word that it holds no record of this machine until 2026-11-02. Nobody has checked that."
)

// TestLists holds lists to the verdicts of records, in the same order.
func TestLists(t *testing.T) {
	sealed := sealList(t, exampleList(), yardSeed)
	none := exampleList()
	none.Ends, none.Count = nil, 0
	owners := exampleList()
	owners.Issuer.Kind = record.OwnerIssuer
	key := keyOf(t, yardSeed).Public()
	revoked := func(from string, why sign.RevokedWhy) verify.Reader {
		return verify.Reader{Trust: sign.TrustList{{Name: yardName, Key: key, Revoked: &sign.Revocation{From: *day(t, from), Why: why}}}}
	}
	with := func(serial string) verify.Reader {
		return verify.Reader{Trust: buyer(t).Trust, Serial: serial}
	}
	texts := func(host string) []byte {
		return []byte(strings.Join(must[[]string](t)(qrtext.Encode(sealed, host)), "\n"))
	}
	flipped := bytes.Clone(sealed)
	flipped[100] ^= 1
	for _, c := range []struct {
		name     string
		data     []byte
		reader   verify.Reader
		verdict  verify.Verdict
		sentence string
	}{
		{"known", sealed, buyer(t), verify.Genuine, listSentence},
		{"empty", sealList(t, none, yardSeed), buyer(t), verify.Genuine, emptySentence},
		{"owner's", sealList(t, owners, yardSeed), buyer(t), verify.Genuine, strings.Replace(listSentence, "Boatyard", "Boatyard, the owner", 1)},
		{"as a text", texts(""), buyer(t), verify.Genuine, listSentence},
		{"same serial", sealed, with("0045120"), verify.Genuine, listSentence},
		{"nearly the same", sealed, with("OO45120"), verify.Genuine, listSentence + " The serial number is nearly, not quite, the one that you gave: look at the plate again."},
		{"another serial", sealed, with("0045121"), verify.OtherMachine,
			"The serial number that you gave is not the one in this list, which is unaltered and signed by Ellery Slip Boatyard."},
		{"as a text that leads somewhere", texts("port-ellery-slip.example"), buyer(t), verify.NotOriginal,
			"The code leads to an address, and a list names none: do not follow it; the list is unaltered and signed by Ellery Slip Boatyard."},
		{"unknown signer, as a text that leads somewhere", texts("port-ellery-slip.example"), verify.Reader{}, verify.UnknownSigner,
			"We do not know who signed this, and the code around it leads to an address, where a list names none."},
		{"unknown signer", sealed, verify.Reader{}, verify.UnknownSigner, "We do not know who signed this, though it is unaltered since it was signed."},
		{"unknown owner", sealList(t, owners, strangerSeed), buyer(t), verify.UnknownSigner, "We do not know who signed this as the owner, though it is unaltered since it was signed."},
		{"key retired before", sealed, revoked("2026-11-01", sign.WhyRetired), verify.KeyNotValid,
			"Signed with a key of Ellery Slip Boatyard that was not valid for its date (revoked from 2026-11-01, retired), though it is unaltered since it was signed."},
		{"key retired later", sealed, revoked("2026-11-03", sign.WhyRetired), verify.Genuine, listSentence},
		{"key stolen later", sealed, revoked("2026-12-01", sign.WhyCompromised), verify.KeyNotValid,
			"Signed with a key of Ellery Slip Boatyard that others may have, since 2026-12-01 at the latest; nothing but its own word says that it is older, though it is unaltered since it was signed."},
		{"altered", flipped, buyer(t), verify.Altered, alteredSentence},
		{"signed as a record", must[[]byte](t)(sign.Seal(sign.RecordV1, must[[]byte](t)(list.Encode(exampleList())), keyOf(t, yardSeed))), buyer(t),
			verify.Unreadable, "This cannot be read as a service record."},
	} {
		got := verify.Run(c.data, c.reader, noPage)
		if got.Verdict != c.verdict || got.Sentence() != c.sentence {
			t.Errorf("%s: %s (%v)\n     %s\nwant %s", c.name, got.Verdict, got.Err, got.Sentence(), c.sentence)
		}
		if got.Signed != nil || (got.List == nil) != got.Verdict.HidesContent() {
			t.Errorf("%s: record %t, list %t", c.name, got.Signed != nil, got.List != nil)
		}
		onlyPrints(t, c.name, got)
	}
}

// TestListSaysAll: the answers about a list, in the order of those about a record, and
// what it does not prove whatever the verdict.
func TestListSaysAll(t *testing.T) {
	sealed := sealList(t, exampleList(), yardSeed)
	reader := buyer(t)
	reader.Hours = hours(t, "900")
	for _, reader := range []verify.Reader{reader, {}} {
		got := verify.Run(sealed, reader, noPage)
		var headings []string
		said := strings.Join(allWords(got), "\n")
		for _, section := range got.Sections(verify.Terminal) {
			headings = append(headings, section.Heading)
		}
		want := []string{"Who signed", "Is it unaltered", "Is it about this machine", "When, and who says so", "What this does not prove", "What to do with it"}
		if !slices.Equal(headings, want) {
			t.Errorf("%s: %q", got.Verdict, headings)
		}
		for _, words := range []string{"That nothing else was done. Records of other yards are not in it", "List " + sign.IDOf(sealed).String(), "issued 2026-11-02 16:30 UTC"} {
			if !strings.Contains(said, words) {
				t.Errorf("%s: %q is not said in\n%s", got.Verdict, words, said)
			}
		}
		if len(got.Questions()) > 0 {
			t.Errorf("questions of a list: %q", got.Questions())
		}
	}
	if said := strings.Join(allWords(verify.Run(sealed, reader, noPage)), "\n"); !strings.Contains(said, "the meter that you read was not compared") {
		t.Errorf("nothing of the meter in\n%s", said)
	}
}

// TestEveryByteOfAList: with any byte changed it never passes.
func TestEveryByteOfAList(t *testing.T) {
	sealed := sealList(t, exampleList(), yardSeed)
	for i := range sealed {
		changed := bytes.Clone(sealed)
		changed[i] ^= 0x10
		if got := verify.Run(changed, buyer(t), noPage); !got.Verdict.HidesContent() || got.List != nil {
			t.Fatalf("byte %d changed: %s", i, got.Verdict)
		}
	}
}

// TestListInAPDF: a list where a report has its record is none, whatever the page shows.
func TestListInAPDF(t *testing.T) {
	sealed := sealList(t, exampleList(), yardSeed)
	pdf := bothReplaced(t, example(t).pdf(t), issued{envelope: sealed, texts: textsOf(t, sealed)})
	got := verify.Run(pdf, buyer(t), makePage)
	if got.Verdict != verify.Unreadable || got.List != nil || got.Source != source.KindPDF || !strings.Contains(got.Err.Error(), "a signed list of records, and no record") {
		t.Errorf("%s, %v", got.Verdict, got.Err)
	}
	// Beside the record it is nothing to the record's answer but another attachment.
	pdf = must[[]byte](t)(sourcetest.AddAttachment(example(t).pdf(t), "list.cose", sealed))
	if got := verify.Run(pdf, buyer(t), makePage); got.Verdict != verify.NotOriginal || got.Signed == nil || got.List != nil {
		t.Errorf("%s, %v", got.Verdict, got.Err)
	}
}

// TestListSignerLater: who signed a list is judged like a record's signer when the
// reader comes to know more.
func TestListSignerLater(t *testing.T) {
	sealed := sealList(t, exampleList(), yardSeed)
	early, want := verify.Run(sealed, verify.Reader{}, noPage), verify.Run(sealed, buyer(t), noPage)
	ring, _ := buyer(t).Trust.With(nil)
	if later := verify.SignerOf(ring, early.Signer.Key, early.List.IssuedAt); early.Signer.Known || !later.ValidForDate() || !reflect.DeepEqual(later, want.Signer) {
		t.Errorf("%+v\nwant %+v", later, want.Signer)
	}
}
