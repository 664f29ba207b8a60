package source

import (
	"cmp"
	"errors"
	"fmt"
	"image"
	"slices"
	"strings"

	"hourseal/sign/qrtext"
	"hourseal/verify/source/picture"
)

// FromTexts finds the one record in the texts of codes that were read elsewhere:
// off several pictures, off a camera, out of an address. Where kind is KindText
// every text has to be one of ours; what was read off pictures may have other codes
// beside it, which are left alone; KindPDF is for those of scans. Errors are *InputError values.
func FromTexts(kind Kind, texts []string) (Found, error) {
	switch kind {
	case KindText:
		return fromTextLines(texts)
	case KindImage, KindPDF:
	default:
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: fmt.Sprintf("texts are not read off an input of kind %q", kind), Hint: hintAnything}
	}
	var c codes
	c.take(texts)
	return ofKind(kind)(c.found(medium{kind, "these pictures", "hold", "the codes in these pictures", hintAgain}))
}

// ReadPixels finds the one record in the codes of a picture, which is turned into its
// brightness as the package comment says of a file's. The pixels are neither
// changed nor kept. Errors are *InputError values.
func ReadPixels(img image.Image, effort picture.Effort) (Found, error) {
	var c codes
	c.unread = c.read(grayOf(img), effort)
	return ofKind(KindImage)(c.found(photograph))
}

// medium is where codes were seen, in words.
type medium struct {
	kind  Kind
	what  string // as in "no QR code was seen in …"
	holds string // the verb that goes with it
	codes string // as in "… name two different pages"
	again string // how to come by a better picture
}

var (
	photograph = medium{KindImage, "this picture", "holds", "the codes in this picture", hintAgain}
	scan       = medium{KindPDF, "the pictures in this PDF", "hold", "the codes in the pictures in this PDF", hintScanAgain}
	asText     = medium{KindText, "the texts", "hold", "the texts", hintTextAgain}
)

// codes is what was read off pictures so far.
type codes struct {
	texts  []string         // distinct, in the order of first appearance
	unread []picture.Symbol // what the caller makes of those that were seen and not read
	// Of the texts:
	groups  []group
	label   *qrtext.ReferenceError // the first code that only names a record
	damaged error                  // why the first text of ours does not decode
	other   int                    // somebody else's codes
	over    bool                   // there were more texts than are looked at
}

// read adds the codes of a picture, and hands back those that were seen and not read.
func (c *codes) read(img *image.Gray, effort picture.Effort) (unread []picture.Symbol) {
	// All codes that are seen are read, or a second record beside the first would be
	// passed over. One far smaller than those read is not looked for (package comment).
	for _, symbol := range picture.Read(img, effort) {
		switch {
		case symbol.Text == "":
			unread = append(unread, symbol)
		case strings.HasPrefix(symbol.Text, fragmentMark): // no code of ours is without its address
			c.other++
		default:
			c.take([]string{symbol.Text})
		}
	}
	return unread
}

// take adds texts.
func (c *codes) take(texts []string) {
	for _, text := range texts {
		if slices.Contains(c.texts, text) {
			continue
		}
		if len(c.texts) == maxTexts {
			c.over = true
			return
		}
		c.texts = append(c.texts, text)
		part, err := parseText(text)
		label, named := errors.AsType[*qrtext.ReferenceError](err)
		switch {
		case err == nil:
			c.groups = addPart(c.groups, part, text)
		case errors.Is(err, qrtext.ErrNotOurs):
			c.other++
		case named:
			if c.label == nil {
				c.label = label
			}
		case c.damaged == nil:
			c.damaged = err
		}
	}
}

// found says what the codes come to: other people's codes, labels and damaged texts
// beside a record are left alone.
func (c *codes) found(in medium) (Found, error) {
	if c.over {
		return Found{}, &InputError{Kind: ErrTooLarge, Reason: fmt.Sprintf("over %d different codes, a record has at most %d", maxTexts, maxTexts/2), Hint: hintTwo}
	}
	t, err := putTogether(c.groups, in)
	switch {
	case err != nil:
		return Found{}, err
	case t.envelope != nil:
		return Found{Kind: in.kind, Scan: in.kind == KindPDF, Envelope: t.envelope, Texts: t.texts, Host: t.host, HostUnknown: t.hostUnknown}, nil
	case t.missing != nil:
		return Found{}, c.partsMissing(in, t)
	}
	return Found{}, c.nothing(in, cmp.Or(c.damaged, t.damaged, t.unsound))
}

func (c *codes) partsMissing(in medium, t together) error {
	e := &InputError{
		Kind: ErrUnreadable, Reason: "the record is not whole", Cause: t.missing, Texts: t.texts,
		Hint: "give a picture of each code on the report, all of them together, or give the PDF or the .cose record file",
	}
	if len(c.unread) > 0 {
		e.Reason += ", and a QR code beside it was not read"
		e.Hint = betterPicture(in, c.unread)
	}
	return e
}

// nothing says why there is no record, the nearest miss first.
func (c *codes) nothing(in medium, damaged error) error {
	switch {
	case damaged != nil:
		return &InputError{Kind: ErrUnreadable, Reason: "the code in " + in.what + " holds no record that can be read", Hint: hintAnything, Cause: damaged}
	case len(c.unread) > 0:
		return &InputError{Kind: ErrUnread, Reason: "a QR code was seen in " + in.what + " and not read" + squares(c.unread), Hint: betterPicture(in, c.unread)}
	case c.label != nil:
		return &InputError{Kind: ErrUnreadable, Reason: "there is no record in " + in.what, Hint: hintAnything, Cause: c.label}
	case c.other > 0:
		return &InputError{Kind: ErrOtherCode, Reason: "the code in " + in.what + " is not one of a service record", Hint: "find the large code on the service report's last page, and " + in.again}
	default:
		return &InputError{Kind: ErrNoCode, Reason: "no QR code was seen in " + in.what, Hint: hintLastPage + in.again}
	}
}

// goodModule is how many pixels a module should have at least for a photograph to
// be read with ease: the grid of simulated photographs shows it.
const goodModule = 5

// squares says how far the reading of the largest code got.
func squares(unread []picture.Symbol) string {
	module := largest(unread).Module
	if module <= 0 {
		return ""
	}
	return fmt.Sprintf(": its small squares are about %.1f pixels wide", module)
}

func largest(symbols []picture.Symbol) picture.Symbol {
	return slices.MaxFunc(symbols, func(a, b picture.Symbol) int { return cmp.Compare(a.Module, b.Module) })
}

// betterPicture says what would help: more pixels where there were too few.
func betterPicture(in medium, unread []picture.Symbol) string {
	if in.kind != KindPDF && largest(unread).Module >= goodModule {
		return hintSteady
	}
	return in.again
}
