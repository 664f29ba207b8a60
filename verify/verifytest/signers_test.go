package verifytest_test

import (
	"slices"

	"hourseal/record"
	"hourseal/sign"
	"hourseal/verify"
)

func unknownSigners() []vector {
	in := file(sealed(service(), yardSeed))
	next := file(sealed(service(), nextSeed))
	byStranger := stated{kind: renews, of: yardSeed, other: strangerSeed, from: "2026-01-01", at: "2026-01-01", number: 1, signer: strangerSeed}
	recovery := stated{kind: mayRevoke, of: yardSeed, other: recoverySeed, at: "2026-01-01", number: 1}
	renewal := stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-01", at: "2026-04-28", number: 1}
	alsoRenewal := stated{kind: renews, of: yardSeed, other: strangerSeed, from: "2026-05-01", at: "2026-04-28", number: 1}
	thief := stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-01", at: "2026-04-28", number: 3}
	theft := stated{kind: revokes, of: yardSeed, from: "2026-04-30", why: compromise, at: "2026-05-02", number: 2}
	edited := outcome{verdict: verify.UnknownSigner, sentence: unknownWords + notThisPDF, page: differs,
		without: &outcome{verdict: verify.UnknownSigner, sentence: unknownWords + notTried, page: notComparedPage}}
	as := func(whom string) outcome {
		return outcome{verdict: verify.UnknownSigner, sentence: "We do not know who signed this as " + whom + ", " + intact}
	}
	one := func(name, what string, in input, who reader) vector { return vector{name, what, in, who, unknown()} }
	return []vector{
		one("nobody-trusted", "The reader trusts nobody.", in, reader{trust: nobody}),
		one("other-trusted", "The reader trusts another key only.", in, reader{trust: trusting(yardName, strangerSeed)}),
		one("name-in-record", "A stranger's record that gives the yard's name as the issuer's.", file(sealed(service(), strangerSeed)), reader{}),
		one("list", "A signed list by a stranger.", listFile(sealedList(oneRecord(), strangerSeed)), reader{}),
		one("text", "The text of a stranger's record.", texts(sealed(service(), strangerSeed), format1(host, sealed(service(), strangerSeed))), reader{}),
		{"owner", "A stranger who calls itself the owner: the verdict says so.", file(sealed(with(by(record.OwnerIssuer, "E. Marlow")), strangerSeed)), reader{}, as("the owner")},
		{"surveyor", "A stranger who calls itself a surveyor: the verdict says so.", file(sealed(with(by(record.SurveyorIssuer, "Mara Quill")), surveyorSeed)), reader{}, as("a surveyor")},
		one("new-key-no-statement", "The yard's next key, and the reader has not seen the renewal.", next, reader{}),
		one("renewed-by-stranger", "A stranger's statement that their key takes over from the yard's.", file(sealed(service(), strangerSeed)), reader{statements: statements(byStranger)}),
		one("two-renewals-one-number", "Two renewals of the yard's key have one number: neither counts.", next, reader{statements: statements(renewal, alsoRenewal)}),
		one("renewed-after-revocation", "A renewal that is numbered after the revocation of the key as compromised.", next, reader{statements: statements(theft, thief)}),
		one("recovery-key", "The yard's recovery key signs a record: it may only revoke.", file(sealed(service(), recoverySeed)), reader{statements: statements(recovery)}),
		one("reader-says-compromised", "The reader has the old key as compromised: its renewals do not count.", next,
			reader{trust: trustYard(revoked("2026-06-01", sign.WhyCompromised)), statements: statements(renewal)}),
		{"other-machine", "An unknown signer outweighs another machine; the sentence says both.", in, reader{trust: nobody, serial: "0045121", hours: "10"}, unknown().also(alsoSerial)},
		{"page-edited", "An unknown signer outweighs an edited page; the sentence says both.", editedPDF(), reader{trust: nobody}, edited},
		{"code-elsewhere", "An unknown signer outweighs another address in the code; the sentence says both.",
			texts(in.envelope, format1(anotherHost, in.envelope)), reader{trust: nobody}, outcome{verdict: verify.UnknownSigner, sentence: unknownWords + notThisCode}},
	}
}

func keysNotValid() []vector {
	in := file(sealed(service(), yardSeed))
	next := file(sealed(service(), nextSeed))
	list := listFile(sealedList(oneRecord(), yardSeed))
	renewal := stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-03", at: "2026-04-28", number: 1}
	toCome := stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-05", at: "2026-04-28", number: 1}
	revoke := func(from string, why int) []byte {
		return statements(stated{kind: revokes, of: yardSeed, from: from, why: why, at: "2026-05-20", number: 1})
	}
	recovery := stated{kind: mayRevoke, of: yardSeed, other: recoverySeed, at: "2026-01-01", number: 1}
	byRecovery := stated{kind: revokes, of: yardSeed, from: "2026-03-01", why: compromise, at: "2026-06-01", number: 2, signer: recoverySeed}
	retiredFirst := stated{kind: revokes, of: yardSeed, from: "2026-10-01", why: retired, at: "2026-10-01", number: 1}
	thenStolen := stated{kind: revokes, of: yardSeed, from: "2026-11-01", why: compromise, at: "2026-11-01", number: 2}
	edited := notValidAnd("you trust it until 2026-05-03", notThisPDF)
	edited.page = differs
	untried := notValidAnd("you trust it until 2026-05-03", notTried)
	untried.page = notComparedPage
	edited.without = &untried
	one := func(name, what string, in input, who reader, out outcome) vector {
		return vector{name, what, in, who, out}
	}
	return []vector{
		one("from-next-day", "The reader trusts the key from the day after issue.", in, reader{trust: trustYard(from("2026-05-05"))}, notValid("you trust it from 2026-05-05")),
		one("until-day-before", "The reader trusted the key until the day before issue.", in, reader{trust: trustYard(until("2026-05-03"))}, notValid("you trust it until 2026-05-03")),
		one("retired-that-day", "Retired from the day of issue.", in, reader{trust: trustYard(revoked("2026-05-04", sign.WhyRetired))}, notValid("revoked from 2026-05-04, retired")),
		one("compromised-before", "Compromised from a day before issue.", in, reader{trust: trustYard(revoked("2026-05-01", sign.WhyCompromised))}, notValid("revoked from 2026-05-01, compromised")),
		one("compromised-that-day", "Compromised from the day of issue.", in, reader{trust: trustYard(revoked("2026-05-04", sign.WhyCompromised))}, notValid("revoked from 2026-05-04, compromised")),
		one("compromised-later", "Compromised from a later day: whoever has the key can write any earlier date.", in,
			reader{trust: trustYard(revoked("2026-09-01", sign.WhyCompromised))}, stolen("2026-09-01")),
		one("until-and-compromised-later", "Trusted until before issue, and compromised later: not valid for its date weighs.", in,
			reader{trust: trustYard(until("2026-04-30"), revoked("2027-01-01", sign.WhyCompromised))}, notValid("you trust it until 2026-04-30")),
		one("superseded", "Another key took over the day before; the old one signs on.", in, reader{statements: statements(renewal)}, notValid("another key took over on 2026-05-03")),
		one("new-key-too-early", "The new key signs on the day before it takes over.", next, reader{statements: statements(toCome)}, notValid("it took over from another key on 2026-05-05")),
		one("revoked-retired", "A statement of the key retires it before issue.", in, reader{statements: revoke("2026-05-01", retired)}, notValid("revoked from 2026-05-01, retired")),
		one("revoked-compromised", "A statement of the key revokes it as compromised before issue.", in, reader{statements: revoke("2026-05-01", compromise)}, notValid("revoked from 2026-05-01, compromised")),
		one("revoked-compromised-later", "A statement of the key revokes it as compromised from after issue.", in, reader{statements: revoke("2026-05-19", compromise)}, stolen("2026-05-19")),
		one("revoked-by-recovery-key", "The recovery key that the key named revokes it.", in, reader{statements: statements(recovery, byRecovery)}, notValid("revoked from 2026-03-01, compromised")),
		one("revoked-twice", "Retired from one day and compromised from a later one: the earlier day and the worse reason.", in, reader{statements: statements(retiredFirst, thenStolen)}, stolen("2026-10-01")),
		one("list", "A signed list under a key that was retired the day before.", list, reader{trust: trustYard(revoked("2026-11-01", sign.WhyRetired))}, notValid("revoked from 2026-11-01, retired")),
		one("page-edited", "A key that was not valid outweighs an edited page; the sentence says both.", editedPDF(), reader{trust: trustYard(until("2026-05-03"))}, edited),
		one("code-elsewhere", "A key that was not valid outweighs another address in the code; the sentence says both.",
			texts(in.envelope, format1(anotherHost, in.envelope)), reader{trust: trustYard(until("2026-05-03"))}, notValidAnd("you trust it until 2026-05-03", notThisCode)),
		one("other-machine", "A key that was not valid outweighs another machine; the sentence says both.", in, reader{trust: trustYard(until("2026-05-03")), serial: "0045121", hours: "10"}, notValid("you trust it until 2026-05-03").also(alsoSerial)),
		one("pdf-brings-revocation", "The report itself brings the statement that revokes its key.",
			reportWith(service(), yardSeed, slices.Clone(revoke("2026-05-01", compromise))), reader{}, revokedInPDF()),
	}
}

func revokedInPDF() outcome {
	out := notValid("revoked from 2026-05-01, compromised")
	out.page = original
	without := notValidAnd("revoked from 2026-05-01, compromised", notTried)
	without.page = notComparedPage
	out.without = &without
	return out
}
