package verifytest_test

import (
	"bytes"
	"compress/zlib"
	"slices"

	"hourseal/record"
	"hourseal/render"
	"hourseal/sign/qrtext"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

const (
	original        = source.PageOriginal
	redeflated      = source.PageRedeflated
	differs         = source.PageDiffers
	notComparedPage = verify.PageNotCompared
)

// pdfOf is a report by the page that this program makes, with any texts on it.
func pdfOf(r *record.Record, envelope []byte, texts []string, statements []byte) []byte {
	return must(render.Report(r, envelope, texts, statements))
}

func pdf(data, envelope []byte) input {
	return input{data: data, source: source.KindPDF, envelope: envelope, deflated: true}
}

// reportWith is a report as the program makes it, with key statements.
func reportWith(r *record.Record, seed byte, statements []byte) input {
	envelope := sealed(r, seed)
	return pdf(pdfOf(r, envelope, must(qrtext.Encode(envelope, r.PageHost)), statements), envelope)
}

func report() input { return reportWith(service(), yardSeed, nil) }

// edited changes the report by one of the functions of sourcetest.
func edited(change func(pdf []byte) ([]byte, error)) input {
	in := report()
	return pdf(must(change(in.data)), in.envelope)
}

// otherHours shows 412.6 h where the page has 812.6 h.
func otherHours(content []byte) []byte {
	changed := bytes.ReplaceAll(content, sourcetest.Text16("812.6"), sourcetest.Text16("412.6"))
	if bytes.Equal(changed, content) {
		panic("the page does not show 812.6")
	}
	return changed
}

func editedPDF() input {
	return edited(func(pdf []byte) ([]byte, error) { return sourcetest.EditPage(pdf, 1, otherHours) })
}

// proved is a report whose page is the record's; what makes no pages cannot tell.
func proved(page source.PageResult) outcome {
	return outcome{verify.Genuine, genuinePage, page, &outcome{verify.NotOriginal, untriedPDF, notComparedPage, nil}}
}

// inLayout is a report whose page is not the record's, in a file that still has the
// layout of a report: what makes no pages cannot tell.
func inLayout() outcome {
	return outcome{verify.NotOriginal, editedPDFWords, differs, &outcome{verify.NotOriginal, untriedPDF, notComparedPage, nil}}
}

// outOfLayout is a file that no longer has the layout of a report: whoever reads it
// can tell.
func outOfLayout() outcome { return outcome{verify.NotOriginal, editedPDFWords, differs, nil} }

func genuinePages() []vector {
	renewal := statements(stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-01", at: "2026-04-28", number: 1})
	envelope := sealed(service(), yardSeed)
	old := pdf(pdfOf(service(), envelope, []string{format1(host, envelope)}, nil), envelope)
	bare := reportWith(with(withoutHost), yardSeed, nil)
	again := edited(func(pdf []byte) ([]byte, error) { return sourcetest.Redeflate(pdf, zlib.BestCompression) })
	at := proved(original)
	at.sentence = genuinePage + nearly
	return []vector{
		{"pdf", "A report as the yard sends it.", report(), reader{}, proved(original)},
		{"pdf-old-text", "A report made when texts were still of format 1: the page is made again with the text that is in it.", old, reader{}, proved(original)},
		{"pdf-no-host", "A report of a yard that has no page.", bare, reader{}, proved(original)},
		{"pdf-re-deflated", "A report with all streams deflated at another level: every byte of content is the same.", again, reader{}, proved(redeflated)},
		{"pdf-brings-renewal", "A report by the yard's next key, with the statement that it takes over.", reportWith(service(), nextSeed, renewal), reader{}, proved(original)},
		{"pdf-this-machine", "A report read beside the machine: serial number nearly the same, meter run on.", report(), reader{serial: "45120", hours: "901"}, at},
	}
}

func otherPages() []vector {
	in, other := report(), sealed(with(starboard), yardSeed)
	envelope := in.envelope
	strange := []string{format1(anotherHost, envelope)}
	replace := func(name string, content []byte) func([]byte) ([]byte, error) {
		return func(pdf []byte) ([]byte, error) { return sourcetest.ReplaceAttachment(pdf, name, content) }
	}
	bad := func(name, what string, in input, out outcome) vector { return vector{name, what, in, reader{}, out} }
	both := func(envelope []byte) input {
		of := edited(func(file []byte) ([]byte, error) {
			file, err := sourcetest.ReplaceAttachment(file, "record.cose", envelope)
			if err != nil {
				return nil, err
			}
			return sourcetest.ReplaceAttachment(file, "record.txt", lines(format1(host, envelope)))
		})
		of.envelope = envelope
		return of
	}
	later := with(func(r *record.Record) { r.Renderer = 60_000 })
	untried := outcome{verify.NotOriginal, untriedPDF, notComparedPage, nil}
	elsewhere := outcome{verify.NotOriginal, otherAddress, differs, &outcome{verify.NotOriginal, otherAddress, notComparedPage, nil}}
	return []vector{
		bad("page-edited", "Page 1 shows 412.6 hours where the record has 812.6.", editedPDF(), inLayout()),
		bad("update-appended", "An incremental update at the end of the file shows other hours.",
			edited(func(pdf []byte) ([]byte, error) { return sourcetest.AppendUpdate(pdf, 1, otherHours) }), outOfLayout()),
		bad("byte-before", "A line end before the report.", pdf(append([]byte("\n"), in.data...), envelope), outOfLayout()),
		bad("byte-after", "A line end after the report.", pdf(append(bytes.Clone(in.data), '\n'), envelope), outOfLayout()),
		bad("twice", "The report twice in one file.", pdf(slices.Concat(in.data, in.data), envelope), outOfLayout()),
		bad("text-swapped", "The attached text is another record's; record.cose is the report's own.",
			edited(replace("record.txt", lines(format1(host, other)))), outOfLayout()),
		bad("record-of-another", "Both attachments are another record's: the page is not its page.", both(other), inLayout()),
		bad("attachment-added", "A further attachment.", edited(func(pdf []byte) ([]byte, error) {
			return sourcetest.AddAttachment(pdf, "invoice.pdf", []byte("pay here"))
		}), outOfLayout()),
		bad("renderer-newer", "The record asks for a renderer that nobody has yet: its page cannot be made.", both(sealed(later, yardSeed)), untried),
		bad("pdf-elsewhere", "A whole report whose code leads to another address: only the address gives it away.",
			pdf(pdfOf(service(), envelope, strange, nil), envelope), elsewhere),
		{"and-other-machine", "An edited page outweighs another machine; the sentence says both.", editedPDF(), reader{serial: "0045121", hours: "10"}, inLayout().also(alsoSerial)},
		bad("pdf-in-foreign-pdf", "The record as an attachment in another program's PDF.", pdf(foreignPDF(envelope), envelope).plain(), outOfLayout()),
	}
}

// plain is an input without anything deflated in it.
func (in input) plain() input {
	in.deflated = false
	return in
}

// otherCodes are texts with another address than the record's.
func otherCodes() []vector {
	envelope, bare := sealed(service(), yardSeed), sealed(with(withoutHost), yardSeed)
	list := sealedList(oneRecord(), yardSeed)
	listText := texts(list, format1(anotherHost, list))
	listText.list = true
	led := notOriginal(otherAddress)
	return []vector{
		{"text-elsewhere", "The code leads to another address than the record names.", texts(envelope, format1(anotherHost, envelope)), reader{}, led},
		{"text-below", "The code leads to a name below the record's.", texts(envelope, format1("engine."+host, envelope)), reader{}, led},
		{"parts-elsewhere", "Both parts lead to another address.", texts(envelope, format2(anotherHost, envelope, 2)...), reader{}, led},
		{"parts-elsewhere-and-fragment", "One part leads to another address, the other is a fragment.",
			texts(envelope, format2(anotherHost, envelope, 2)[0], fragment(format2(host, envelope, 2)[1])), reader{}, led},
		{"text-no-address", "The code has no address, though the record names one.", texts(envelope, format1("", envelope)), reader{}, notOriginal(noAddress)},
		{"text-address-added", "The code has an address, though the record names none.", texts(bare, format1(anotherHost, bare)), reader{}, led},
		{"text-and-other-machine", "Another address outweighs another machine; the sentence says both.", texts(envelope, format1(anotherHost, envelope)), reader{serial: "0045121", hours: "10"}, led.also(alsoSerial)},
		{"list-text-elsewhere", "The text of a signed list leads somewhere: a list names no address.", listText, reader{}, notOriginal(listElsewhere)},
	}
}

func otherMachines() []vector {
	in := file(sealed(service(), yardSeed))
	envelope := in.envelope
	list := listFile(sealedList(oneRecord(), yardSeed))
	serial, behind := otherMachine(otherSerial), otherMachine(fewerHours)
	inPDF := outcome{verify.OtherMachine, otherSerial, original, &outcome{verify.NotOriginal, untriedPDF + alsoSerial, notComparedPage, nil}}
	return []vector{
		{"serial", "One digit of the serial number differs.", in, reader{serial: "0045121"}, serial},
		{"serial-digit-missing", "The last digit of the serial number is missing.", in, reader{serial: "004512"}, serial},
		{"serial-letter-s", "S for 5 is another serial number: only O for 0 and I for 1 are nearly the same.", in, reader{serial: "004S120"}, serial},
		{"serial-zero", "A serial number of zeros.", in, reader{serial: "0"}, serial},
		{"hours-behind", "The meter shows a hundredth of an hour less than the record.", in, reader{hours: "812.59"}, behind},
		{"hours-behind-new-meter", "A second meter that shows less than the record read on it.", file(sealed(with(meterChanged), yardSeed)), reader{hours: "112"}, behind},
		{"both", "Serial number and meter speak against it: the sentence names the serial number.", in, reader{serial: "0045121", hours: "10"}, serial},
		{"serial-right-hours-behind", "The serial number is right, the meter is behind.", in, reader{serial: "0045120", hours: "10"}, behind},
		{"text", "A text, read beside another machine.", texts(envelope, format1(host, envelope)), reader{serial: "0045121"}, serial},
		{"list", "A signed list about another machine.", list, reader{serial: "0045121"}, otherMachine(listOther)},
		{"pdf", "A report as issued, read beside another machine.", report(), reader{serial: "0045121"}, inPDF},
	}
}
