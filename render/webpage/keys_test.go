package webpage

import (
	"bytes"
	"strings"
	"testing"

	"hourseal/sign"
)

func keyOf(t *testing.T, seed byte) *sign.PrivateKey {
	t.Helper()
	key, err := sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{seed}, 32)))
	if err != nil {
		t.Fatal(err)
	}
	return key
}

func stated(t *testing.T, signer *sign.PrivateKey, content sign.StatementContent) sign.Statement {
	t.Helper()
	payload, err := content.Encode()
	if err != nil {
		t.Fatal(err)
	}
	envelope, err := sign.Seal(sign.KeyStatementV1, payload, signer)
	if err != nil {
		t.Fatal(err)
	}
	statement, err := sign.ReadStatement(envelope)
	if err != nil {
		t.Fatal(err)
	}
	return statement
}

// A yard that has renewed its key shows both keys, and from when to when each
// counts; a recovery key signs no record, so it is not shown.
func TestKeysThatFollow(t *testing.T) {
	first, second, recovery, stranger := keyOf(t, 1), keyOf(t, 2), keyOf(t, 3), keyOf(t, 4)
	from, err := sign.ParseDay("2027-03-01")
	if err != nil {
		t.Fatal(err)
	}
	statements, err := sign.FormatStatements([]sign.Statement{
		stated(t, first, sign.StatementContent{Kind: sign.NamesRecovery, Subject: first.Public(), Other: recovery.Public(), StatedAt: 1777896000, Number: 1}),
		stated(t, first, sign.StatementContent{Kind: sign.Renew, Subject: first.Public(), Other: second.Public(), From: from, StatedAt: 1777896001, Number: 2}),
		stated(t, stranger, sign.StatementContent{Kind: sign.Renew, Subject: stranger.Public(), Other: recovery.Public(), From: from, StatedAt: 1777896001, Number: 1}),
	})
	if err != nil {
		t.Fatal(err)
	}
	keys, err := KeysOf(Maker{Name: "Ellery Slip Boatyard", Trust: sign.TrustList{{Name: "Ellery Slip Boatyard", Key: first.Public()}}, Statements: statements})
	if err != nil {
		t.Fatal(err)
	}
	list := keyList(keys)
	if got := strings.Count(list, "<li>"); got != 2 {
		t.Errorf("%d keys", got)
	}
	for _, want := range []string{
		first.Public().Fingerprint() + "</span><span>Counts for records until 2027-03-01.",
		second.Public().Fingerprint() + "</span><span>Counts for records from 2027-03-01 on.",
	} {
		if !strings.Contains(list, want) {
			t.Errorf("no %q in\n%s", want, list)
		}
	}
}

func TestCounts(t *testing.T) {
	from, until := sign.Day(20577), sign.Day(20942)
	for _, c := range []struct {
		entry sign.Trusted
		want  string
	}{
		{sign.Trusted{}, "Counts for records of any date."},
		{sign.Trusted{From: &from, Until: &until}, "Counts for records from 2026-05-04 until 2027-05-04."},
		{sign.Trusted{Until: &until, Revoked: &sign.Revocation{From: from, Why: sign.WhyCompromised}},
			"Counts for records until 2027-05-04; revoked from 2026-05-04, compromised."},
	} {
		if got := counts(c.entry); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestPossessive(t *testing.T) {
	for name, want := range map[string]string{"Ellery Slip Boatyard": "Ellery Slip Boatyard's", "Ellery Slip Yards": "Ellery Slip Yards'"} {
		if got := possessive(name); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
