package sheet

// Look is how a flow's own furniture is set.
type Look struct {
	Section     Style // heading of a section
	SectionRule Color
	SpaceBefore Len // above a section
	Head        Style
	HeadRule    Color
	RowRule     Color
	Caption     Style // above a fact
	// Continued makes the heading of a section that goes on over the page.
	Continued func(section string) string
}

// Flow goes down the pages of a document and starts new ones. A section's
// heading is held back until the first piece of what it stands over is placed,
// so that the two never part.
type Flow struct {
	doc     *Document
	area    Box // of every page but where First shortens it
	look    Look
	page    int
	y       Len
	blank   bool // nothing but headings stands on the page yet
	section string
	pending bool // the section's heading is not yet placed
}

// NewFlow starts a flow on a new page. area is what each page leaves to it.
func NewFlow(d *Document, area Box, look Look) *Flow {
	f := &Flow{doc: d, area: area, look: look}
	f.Break()
	return f
}

// Page is the page that the flow is on, counted from 1.
func (f *Flow) Page() int { return f.page }

// Y is how far down the page the flow is.
func (f *Flow) Y() Len { return f.y }

// Area is what each page leaves to the flow.
func (f *Flow) Area() Box { return f.area }

// Break starts a new page.
func (f *Flow) Break() {
	f.doc.AddPage()
	f.page, f.y, f.blank = f.doc.Pages(), f.area.Y, true
}

func (f *Flow) room() Len { return f.area.Bottom() - f.y }

// Space leaves a gap, none at the top of a page.
func (f *Flow) Space(h Len) {
	if !f.blank && !f.pending {
		f.y = min(f.y+h, f.area.Bottom())
	}
}

// Section begins a section. A section that nothing follows leaves no trace.
func (f *Flow) Section(title string) { f.section, f.pending = title, true }

// End ends a section, so that what follows is not headed as its continuation.
func (f *Flow) End() { f.section, f.pending = "", false }

const ruleGap = 2 * Pt

func (f *Flow) headingHeight() Len {
	return f.look.Section.Leading + ruleGap + 3*Pt
}

// Require starts a new page where less than h is left, the heading of a section
// that waits included. More than a page is taken as a page.
func (f *Flow) Require(h Len) {
	if f.pending {
		h += f.look.SpaceBefore + f.headingHeight()
	}
	if h > f.room() && !f.blank {
		f.Break()
	}
}

// begin makes sure that the next h fit on the page, together with a heading
// that waits, and places that heading. It says whether it started a page.
func (f *Flow) begin(h Len) (broke bool) {
	before := Len(0)
	if f.pending {
		h += f.headingHeight()
		if !f.blank {
			before = f.look.SpaceBefore
		}
	}
	if before+h > f.room() && !f.blank {
		f.Break()
		broke, before = true, 0
	}
	if f.pending {
		f.y += before
		f.heading(f.section)
		f.pending = false
		return broke
	}
	if broke {
		f.continued()
	}
	return broke
}

// continued heads a page on which a section goes on.
func (f *Flow) continued() {
	if f.section != "" && f.look.Continued != nil {
		f.heading(f.look.Continued(f.section))
	}
}

func (f *Flow) heading(text string) {
	lines := f.look.Section.Wrap(text, f.area.W)
	f.doc.Text(f.page, f.area.X, f.y, f.look.Section, lines[0])
	f.y += f.look.Section.Leading
	f.doc.Rule(f.page, f.area.X, f.y, f.area.W, Pt/2, f.look.SectionRule)
	f.y += ruleGap + 3*Pt
}

// Block places one thing of height h that cannot be divided.
func (f *Flow) Block(h Len, draw func(page int, b Box)) {
	f.begin(h)
	draw(f.page, Box{f.area.X, f.y, f.area.W, h})
	f.y, f.blank = f.y+h, false
}

// Text sets wrapped text over the whole width, as many pages as it takes. At
// least two lines stay together at each end.
func (f *Flow) Text(s Style, text string) {
	lines := s.Wrap(text, f.area.W)
	for i, line := range lines {
		together := Len(1)
		if left := len(lines) - i; i == 0 && left > 1 || left == 2 {
			together = 2
		}
		f.begin(together * s.Leading)
		f.doc.Text(f.page, f.area.X, f.y, s, line)
		f.y, f.blank = f.y+s.Leading, false
	}
}
