package source

import (
	"strings"

	"hourseal/sign/qrtext"
)

// fragmentMark is the host of a part that was given as a fragment, the "#" and the
// digits of an address: no host has it in its name.
const fragmentMark = "#"

// hosts parses texts of which some may be fragments. A page is given no more than
// that of the code that opened it.
type hosts struct {
	known     string // host of the first text that came whole
	whole     bool   // a text came whole, with "hourseal:" or an address
	fragments bool   // a text came as a fragment
}

// parse is [qrtext.Parse] that also takes fragments.
func (h *hosts) parse(text string) (qrtext.Part, error) {
	digits, fragment := strings.CutPrefix(strings.TrimSpace(text), fragmentMark)
	if fragment {
		part, err := qrtext.Parse("hourseal:" + digits)
		part.Host = fragmentMark
		h.fragments = h.fragments || err == nil
		return part, err
	}
	part, err := qrtext.Parse(text)
	if err == nil && !h.whole {
		h.known, h.whole = part.Host, true
	}
	return part, err
}

// unknown says that no text came with its address. One that did speaks for the rest:
// were it unknown, an address that leads away would go unsaid.
func (h *hosts) unknown() bool { return h.fragments && !h.whole }

// settle gives fragments the host of the texts beside them, "" if there are none,
// and so brings together parts that were given in both ways.
func (h *hosts) settle(groups [][]qrtext.Part) [][]qrtext.Part {
	if !h.fragments {
		return groups
	}
	var settled [][]qrtext.Part
	for _, group := range groups {
		for _, part := range group {
			if part.Host == fragmentMark {
				part.Host = h.known
			}
			settled = addPart(settled, part)
		}
	}
	return settled
}
