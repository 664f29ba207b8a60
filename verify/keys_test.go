package verify_test

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"

	"hourseal/record/recordtest"
	"hourseal/render"
	"hourseal/sign"
	"hourseal/verify"
)

const secondSeed = 21 // the yard's next key

// stated seals statements, each by the seed of its signer.
func stated(t testing.TB, by int, c sign.StatementContent) sign.Statement {
	t.Helper()
	if c.StatedAt == 0 {
		c.StatedAt = 1777880000 // 2026-05-04
	}
	if c.Number == 0 {
		c.Number = 1
	}
	payload := must[[]byte](t)(c.Encode())
	return must[sign.Statement](t)(sign.ReadStatement(must[[]byte](t)(sign.Seal(sign.KeyStatementV1, payload, keyOf(t, byte(by))))))
}

// reported is the report with key statements in it.
func (i issued) reported(t testing.TB, statements ...sign.Statement) []byte {
	keys := must[[]byte](t)(sign.FormatStatements(statements))
	return must[[]byte](t)(render.Report(i.record, i.envelope, i.texts, keys))
}

// The example was issued on 2026-05-04. The reader trusts the yard's first key only.
func TestKeyStatements(t *testing.T) {
	first, second := keyOf(t, yardSeed).Public(), keyOf(t, secondSeed).Public()
	stranger := keyOf(t, strangerSeed).Public()
	renewed := func(from string) sign.Statement {
		return stated(t, yardSeed, sign.StatementContent{Kind: sign.Renew, Subject: first, Other: second, From: *day(t, from)})
	}
	revoked := func(from string, why sign.RevokedWhy) sign.Statement {
		return stated(t, yardSeed, sign.StatementContent{Kind: sign.Revoke, Subject: first, From: *day(t, from), Why: why, Number: 2})
	}
	byFirst, bySecond := example(t), seal(t, recordtest.Example(), secondSeed)
	const intact = ", though it is unaltered since it was signed."
	for _, c := range []struct {
		name     string
		data     []byte
		brought  []sign.Statement // by another way than in the file
		verdict  verify.Verdict
		sentence string
		line     string // a part of "Who signed"
	}{
		{"the new key, from that day", bySecond.reported(t, renewed("2026-05-04")), nil, verify.Genuine, genuineWithPage,
			"Ellery Slip Boatyard: the name that you gave the key " + first.Fingerprint() + ". In a statement signed by the key before it, this one takes over from 2026-05-04."},
		{"the new key, from the next", bySecond.reported(t, renewed("2026-05-05")), nil, verify.KeyNotValid,
			"Signed with a key of Ellery Slip Boatyard that was not valid for its date (it took over from another key on 2026-05-05)" + intact, "it took over from another key on 2026-05-05"},
		{"the old key, on its last day", byFirst.reported(t, renewed("2026-05-04")), nil, verify.Genuine, genuineWithPage, "The key is no longer used: another took over on 2026-05-04."},
		{"the old key, the day after", byFirst.reported(t, renewed("2026-05-03")), nil, verify.KeyNotValid,
			"Signed with a key of Ellery Slip Boatyard that was not valid for its date (another key took over on 2026-05-03)" + intact, "another key took over on 2026-05-03"},
		{"statements by mail", bySecond.envelope, []sign.Statement{renewed("2026-05-04")}, verify.Genuine, genuineOnPaper, "takes over from 2026-05-04"},
		{"none at all", bySecond.envelope, nil, verify.UnknownSigner, unknownSigner, "We do not know who made this."},
		{"compromised later", byFirst.envelope, []sign.Statement{revoked("2026-06-01", sign.WhyCompromised)}, verify.KeyNotValid,
			"Signed with a key of Ellery Slip Boatyard that others may have, since 2026-06-01 at the latest; nothing but its own word says that it is older" + intact, "What would help"},
		{"retired later", byFirst.envelope, []sign.Statement{revoked("2026-06-01", sign.WhyRetired)}, verify.Genuine, genuineOnPaper, "The key is no longer used: revoked from 2026-06-01, retired."},
		{"a renewal in the file, the revocation by mail", bySecond.reported(t, renewed("2026-05-01")), []sign.Statement{revoked("2026-05-02", sign.WhyCompromised)}, verify.UnknownSigner, unknownSigner,
			"Not counted: statement 1 of key " + first.Fingerprint() + " (renewal); that key is compromised from 2026-05-02, and this was not stated before: it may be a thief's."},
		{"a stranger's statements in the yard's report", byFirst.reported(t, stated(t, strangerSeed, sign.StatementContent{Kind: sign.Renew, Subject: stranger, Other: first, From: 1})), nil,
			verify.Genuine, genuineWithPage, "Key statements about keys that you have not named, of which nothing is made: 1."},
		{"a stranger revokes the yard's key", byFirst.reported(t, stated(t, strangerSeed, sign.StatementContent{Kind: sign.Revoke, Subject: first, From: 1, Why: sign.WhyCompromised})), nil,
			verify.Genuine, genuineWithPage, "which is neither that key nor a recovery key that it named"},
		{"key statements by themselves", renewed("2026-05-04").Envelope, nil, verify.Unreadable, unreadable, ""},
		{"several", append(bytes.Clone(renewed("2026-05-04").Envelope), revoked("2026-06-01", sign.WhyRetired).Envelope...), nil, verify.Unreadable, unreadable, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			reader := buyer(t)
			reader.Statements = c.brought
			got := verify.Run(c.data, reader, makePage)
			wants(t, got, c.verdict, c.sentence)
			if who := strings.Join(got.Sections(verify.Terminal)[0].Lines, "\n"); !strings.Contains(who, c.line) {
				t.Errorf("%q is not in\n%s", c.line, who)
			}
			if got.Signer.Known && got.Signer.Root() != first {
				t.Errorf("root %s", got.Signer.Root().Fingerprint())
			}
			if c.verdict == verify.Unreadable {
				if said := strings.Join(allWords(got), "\n"); !strings.Contains(said, "key statements of a yard") || !strings.Contains(said, "--keys FILE") {
					t.Error(said)
				}
				return
			}
			// Statements that come to light later: the same answer.
			early := verify.Run(c.data, buyer(t), makePage)
			ring, _ := reader.Trust.With(slices.Concat(c.brought, early.Keys.Statements))
			if later := verify.SignerOf(ring, early.Signer.Key, early.Signed.IssuedAt); !reflect.DeepEqual(later, got.Signer) {
				t.Errorf("later: %+v\nwant %+v", later, got.Signer)
			}
			onlyPrints(t, c.name, got)
		})
	}
}
