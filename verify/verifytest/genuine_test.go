package verifytest_test

import (
	"bytes"
	"strings"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/sign"
	"hourseal/sign/qrtext"
)

func genuineFiles() []vector {
	about := func(kind record.Kind, why string) input { return file(sealed(with(about(kind, why)), yardSeed)) }
	later := func(words string) outcome {
		return genuine("Unaltered, and signed by Ellery Slip Boatyard. " + words + notCompared)
	}
	return []vector{
		{"record-file", "A record file as the yard keeps it.", file(sealed(service(), yardSeed)), reader{}, genuine(genuinePaper)},
		{"record-of-many-tasks", "A long record file: heads of three bytes, an array of over 23.", file(sealed(with(manyTasks), yardSeed)), reader{}, genuine(genuinePaper)},
		{"record-owner", "The issuer calls itself the owner of the machine: the verdict says so.",
			file(sealed(with(by(record.OwnerIssuer, "E. Marlow")), strangerSeed)), reader{trust: trusting("Marlow of Gannet", strangerSeed)},
			genuine("Unaltered, and signed by Marlow of Gannet, the owner. Nobody has checked that the work was done." + notCompared)},
		{"record-surveyor", "The issuer calls itself a surveyor: the verdict says so.",
			file(sealed(with(by(record.SurveyorIssuer, "Mara Quill")), surveyorSeed)), reader{trust: trusting("Mara Quill", surveyorSeed)},
			genuine("Unaltered, and signed by Mara Quill, a surveyor. Nobody has checked that the work was done." + notCompared)},
		{"record-addendum", "A record that adds to another.", about(record.Addendum, "oil sample came back"), reader{}, later(addendumWords)},
		{"record-correction", "A record that corrects another.", about(record.Correction, "the meter was read as 821.6"), reader{}, later(correctionWords)},
		{"record-void", "A record that says that another is void.", about(record.Void, "made for the wrong engine"), reader{}, later(voidWords)},
		{"list", "A signed list of all records that the yard says it holds.", listFile(sealedList(oneRecord(), yardSeed)), reader{}, genuine(genuineList)},
		{"list-empty", "A signed list that holds no record.", listFile(sealedList(records(), yardSeed)), reader{},
			genuine("Unaltered, and signed by Ellery Slip Boatyard: its word that it holds no record of this machine until 2026-11-02. Nobody has checked that.")},
		{"list-two-chains", "A signed list of two chains, in the order of their ids.",
			listFile(sealedList(records(list.End{Number: 3, ID: record.ID{0x0a}}, list.End{Number: 2, ID: record.ID{0xa0}}), yardSeed)), reader{}, genuine(genuineList)},
		{"list-owner", "A signed list of an owner.", listFile(sealedList(ownersList(), yardSeed)), reader{},
			genuine(strings.Replace(genuineList, "Boatyard", "Boatyard, the owner", 1))},
	}
}

func ownersList() *list.List {
	l := oneRecord()
	l.Issuer = record.Issuer{Name: "E. Marlow", Kind: record.OwnerIssuer}
	return l
}

// What is said of a record about another, in this program's words.
const (
	addendumWords   = "It adds to an earlier record, and is no service of its own. Nobody has checked what it says."
	correctionWords = "It stands in the place of an earlier record. Nobody has checked that the work was done."
	voidWords       = "It tells of no work: it declares that an earlier record does not count."
)

func genuineTexts() []vector {
	envelope, bare := sealed(service(), yardSeed), sealed(with(withoutHost), yardSeed)
	whole, bareText := format1(host, envelope), format1("", bare)
	two, three := format2(host, envelope, 2), format2(host, envelope, 3)
	long := sealed(with(manyTasks), yardSeed)
	now, nowParts := must(qrtext.Encode(envelope, host)), must(qrtext.Encode(long, host))
	if len(now) != 1 || len(nowParts) < 2 {
		panic("one text and several are wanted")
	}
	raw := func(data []byte) input { return input{data: data, source: "text", envelope: envelope} }
	listText := texts(sealedList(oneRecord(), yardSeed), format1("", sealedList(oneRecord(), yardSeed)))
	listText.list = true
	paper := func(name, what string, in input) vector {
		return vector{name, what, in, reader{}, genuine(genuinePaper)}
	}
	return []vector{
		paper("text-format-1", "The text of a QR code, format digit 1, deflated.", texts(envelope, prefixOf(host)+"1"+digitsOf(deflate(envelope))).flated()),
		paper("text-format-1-stored", "The text of a QR code, format digit 1, packed in a DEFLATE block without compression: one record can have several texts.", texts(envelope, whole)),
		paper("text-empty-blocks", "Empty DEFLATE blocks stand before the record, within the limit of 16 KiB.",
			texts(envelope, prefixOf(host)+"1"+digitsOf(append(bytes.Repeat([]byte{0, 0, 0, 0xff, 0xff}, 100), store(envelope)...)))),
		paper("text-fragment", "What is left of a code for the page that it opens: # and the digits. No address is compared.", texts(envelope, fragment(whole))),
		paper("parts-fragment", "One part as it was scanned, the other as a fragment.", texts(envelope, two[0], fragment(two[1]))),
		paper("text-lower-case", "The prefix in lower case, as a telephone's browser shows it.", texts(envelope, strings.ToLower(whole))),
		paper("text-no-host", "A record of a yard that has no page: hourseal: and the digits.", texts(bare, bareText)),
		paper("text-no-host-upper-case", "The scheme hourseal: in upper case.", texts(bare, strings.ToUpper(bareText))),
		paper("text-line-ends", "Lines end in CR LF, and there are blank ones.", raw([]byte("\r\n"+whole+"\r\n\r\n"))),
		paper("text-byte-order-mark", "A UTF-8 byte order mark before the text.", raw([]byte("\xef\xbb\xbf"+whole+"\n"))),
		paper("text-white-space", "Spaces and a tab around the text, no line end.", raw([]byte("  "+whole+"\t "))),
		paper("text-twice", "The same text twice.", texts(envelope, whole, whole)),
		paper("text-two-forms", "One record in two texts that deflate it differently.", texts(envelope, whole, prefixOf(host)+"1"+digitsOf(deflate(envelope))).flated()),
		paper("parts-format-2", "A record in two parts, format digit 2.", texts(envelope, two...)),
		paper("parts-any-order", "Three parts, the last first.", texts(envelope, three[2], three[0], three[1])),
		paper("parts-twice", "Each of two parts twice, mixed.", texts(envelope, two[1], two[0], two[1], two[0])),
		paper("parts-and-whole", "Two parts and a whole text of the same record.", texts(envelope, two[0], whole, two[1])),
		paper("parts-two-and-three", "The same record in two parts and in three.", texts(envelope, append(two, three...)...)),
		paper("text-format-4-stored", "Format digit 4, which gives DEFLATE a dictionary to begin with, and a stream that uses nothing of it.",
			texts(envelope, prefixOf(host)+"4"+digitsOf(store(envelope)))),
		paper("parts-format-5-stored", "Format digit 5, parts of such a stream.", texts(envelope, format5(host, envelope, 2)...)),
		paper("text-as-made-now", "The text as the program makes it now, with the dictionary.", texts(envelope, now...).flated()),
		paper("parts-as-made-now", "The parts as the program makes them now, the last first.", texts(long, reversed(nowParts)...).flated()),
		paper("text-old-and-new", "The text of an old report and that of a new one, of the same record.", texts(envelope, whole, now[0]).flated()),
		{"list-text", "A signed list as a text without an address.", listText, reader{}, genuine(genuineList)},
	}
}

// fragment is what a browser hands to the page at a text's address.
func fragment(text string) string { return text[strings.Index(text, "#"):] }

func reversed(texts []string) []string {
	var out []string
	for i := range texts {
		out = append(out, texts[len(texts)-1-i])
	}
	return out
}

// genuineReaders are about what the reader has, not about the input.
func genuineReaders() []vector {
	in := file(sealed(service(), yardSeed))
	next := file(sealed(service(), nextSeed))
	renewal := stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-01", at: "2026-04-28", number: 1}
	laterRenewal := renewal
	laterRenewal.from, laterRenewal.at = "2026-06-01", "2026-05-28"
	strangers := stated{kind: revokes, of: strangerSeed, from: "2026-01-01", why: compromise, at: "2026-01-01", number: 1}
	notTheirs := stated{kind: revokes, of: yardSeed, from: "2026-01-01", why: compromise, at: "2026-01-01", number: 1, signer: strangerSeed}
	ok := func(name, what string, in input, who reader) vector {
		return vector{name, what, in, who, genuine(genuinePaper)}
	}
	almost := genuine(genuinePage + nearly + notCompared)
	several := append(trusting("Harbour Electrics", strangerSeed), trustYard()...)
	return []vector{
		ok("serial-same", "The serial number that the reader gives is the record's.", in, reader{serial: "0045120"}),
		ok("serial-spaces-and-hyphens", "Spaces and hyphens in a serial number do not count.", in, reader{serial: "00 45-120"}),
		ok("serial-of-nothing", "A serial number of hyphens only: it is not asked about.", in, reader{serial: " - -"}),
		{"serial-letter-o", "O for 0: nearly the same, look again.", in, reader{serial: "OO4512O"}, almost},
		{"serial-letter-i", "I for 1: nearly the same, look again.", in, reader{serial: "0045i20"}, almost},
		{"serial-leading-zeros", "Leading zeros left out: nearly the same, look again.", in, reader{serial: "45120"}, almost},
		{"list-serial-nearly", "The serial number in a signed list is nearly the reader's.", listFile(sealedList(oneRecord(), yardSeed)), reader{serial: "OO45120"}, genuine(genuineList + nearly)},
		ok("hours-ahead", "The meter has run on since the record.", in, reader{hours: "901.2"}),
		ok("hours-equal", "The meter stands where the record read it.", in, reader{hours: "812.6"}),
		ok("hours-of-new-meter", "The record's reading is of a second meter; the machine has run longer. The reading is compared.", file(sealed(with(meterChanged), yardSeed)), reader{hours: "113"}),
		ok("hours-estimated", "The record's hours are an estimate, the meter stood still: nothing to compare.", file(sealed(with(meterStopped), yardSeed)), reader{hours: "500"}),
		ok("hours-and-list", "A signed list has no reading to compare.", listFile(sealedList(oneRecord(), yardSeed)), reader{hours: "1"}).words(genuineList),
		ok("trust-from-that-day", "The first day of trust is the day of issue.", in, reader{trust: trustYard(from("2026-05-04"))}),
		ok("trust-until-that-day", "The last day of trust is the day of issue.", in, reader{trust: trustYard(until("2026-05-04"))}),
		ok("trust-retired-later", "The key was retired the day after issue: the record stays good.", in, reader{trust: trustYard(revoked("2026-05-05", sign.WhyRetired))}),
		ok("trust-several", "The signer is the second of the reader's list.", in, reader{trust: several}),
		{"trust-own-name", "The name is the reader's own for the key, never the one that the record gives.", in, reader{trust: trusting("the blue shed", yardSeed)},
			genuine(strings.Replace(genuinePaper, yardName, "the blue shed", 1))},
		ok("renewed-new-key", "The signer's key took over from the one that the reader trusts, three days before.", next, reader{statements: statements(renewal)}),
		ok("renewed-on-that-day", "The old key signs on the day on which the new one takes over: its last.", in, reader{statements: statements(stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-04", at: "2026-05-04", number: 1})}),
		ok("renewed-later", "The old key was renewed after the record.", in, reader{statements: statements(laterRenewal)}),
		ok("revoked-retired-later", "The key was revoked as retired by a statement, from a day after the record.", in,
			reader{statements: statements(stated{kind: revokes, of: yardSeed, from: "2026-10-01", why: retired, at: "2026-10-01", number: 1})}),
		ok("statement-of-stranger", "A statement about a key that the reader has not named says nothing.", in, reader{statements: statements(strangers)}),
		ok("statement-by-stranger", "A revocation of the yard's key, signed by somebody else, does not count.", in, reader{statements: statements(notTheirs)}),
	}
}

// words is the case with another sentence of the same verdict.
func (v vector) words(sentence string) vector {
	v.out.sentence = sentence
	return v
}
