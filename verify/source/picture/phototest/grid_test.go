package phototest_test

import (
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"hourseal/verify/source/picture"
)

// resolutions are those of a grid, in pixels an inch of the sheet. The code of
// the typical record has modules of about 4, 5.4 and 8 pixels in them.
var resolutions = []int{150, 200, 300}

// line is a row of a grid: a way to take pictures of a sheet.
type line struct {
	name  string
	take  func(sheet *image.Gray, dpi int, seed uint64) *image.Gray
	seeds func(dpi int) int     // how many pictures
	bar   func(dpi int) float64 // the least share of them that ours is to read
}

// count is how many pictures were taken, and read by ours and by zbarimg.
type count struct{ taken, ours, zbar int }

func (c count) add(o count) count {
	return count{c.taken + o.taken, c.ours + o.ours, c.zbar + o.zbar}
}

func (c count) String() string { return fmt.Sprintf("%3d %3d /%3d", c.ours, c.zbar, c.taken) }

// grid is what was read, by line and resolution.
type grid struct {
	counts map[string]map[int]count
	took   time.Duration // by ours, over all pictures
}

// takeGrid takes all pictures, two at a time, of the sheet as it is at each
// resolution, and has each read by both.
// Pictures that zbarimg read and ours did not are kept in the folder that
// HOURSEAL_KEEP_LOST names.
func takeGrid(t *testing.T, text string, sheet func(t testing.TB, dpi int) *image.Gray, lines []line) *grid {
	t.Helper()
	g := &grid{counts: map[string]map[int]count{}}
	var lock sync.Mutex
	var all sync.WaitGroup
	places := make(chan struct{}, 2)
	sheets := map[int]*image.Gray{}
	for _, l := range lines {
		g.counts[l.name] = map[int]count{}
		for _, dpi := range resolutions {
			if l.seeds(dpi) > 0 && sheets[dpi] == nil {
				sheets[dpi] = sheet(t, dpi)
			}
			flat := sheets[dpi]
			for seed := range uint64(l.seeds(dpi)) {
				places <- struct{}{}
				all.Go(func() {
					defer func() { <-places }()
					photo := l.take(flat, dpi, seed+1)
					began := time.Now()
					ours := oursReads(photo, text)
					took := time.Since(began)
					theirs := zbarReads(t, photo, text)
					if theirs && !ours {
						keepLost(t, photo, fmt.Sprintf("%s, %d dpi, %d pixels wide, seed %d", l.name, dpi, photo.Rect.Dx(), seed+1))
					}
					lock.Lock()
					defer lock.Unlock()
					g.counts[l.name][dpi] = g.counts[l.name][dpi].add(count{1, one(ours), one(theirs)})
					g.took += took
				})
			}
		}
	}
	all.Wait()
	return g
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// oursReads says whether our reader reads exactly that text off a picture.
func oursReads(photo *image.Gray, text string) bool {
	return slices.ContainsFunc(picture.Read(photo, picture.Thorough), func(s picture.Symbol) bool { return s.Text == text })
}

func keepLost(t *testing.T, photo *image.Gray, name string) {
	t.Logf("zbarimg read it, ours did not: %s", name)
	folder := os.Getenv("HOURSEAL_KEEP_LOST")
	if folder == "" {
		return
	}
	file, err := os.Create(filepath.Join(folder, strings.NewReplacer(", ", "-", " ", "-").Replace(name)+".png"))
	if err != nil {
		t.Error(err)
		return
	}
	defer file.Close()
	if err := png.Encode(file, photo); err != nil {
		t.Error(err)
	}
}

// log writes the table of the lines of which there are pictures.
func (g *grid) log(t *testing.T, lines []line) {
	t.Helper()
	var table strings.Builder
	fmt.Fprintf(&table, "read by ours, by zbarimg, of\n%-24s", "")
	for _, dpi := range resolutions {
		fmt.Fprintf(&table, "%16s", fmt.Sprint(dpi, " dpi"))
	}
	var total count
	for _, l := range lines {
		var row strings.Builder
		taken := 0
		for _, dpi := range resolutions {
			n := g.counts[l.name][dpi]
			total = total.add(n)
			taken += n.taken
			if n.taken == 0 {
				fmt.Fprintf(&row, "%16s", "-")
			} else {
				fmt.Fprintf(&row, "%16s", n)
			}
		}
		if taken > 0 {
			fmt.Fprintf(&table, "\n%-24s%s", l.name, row.String())
		}
	}
	fmt.Fprintf(&table, "\n%-24s%16s; ours took %v a picture", "all", total, (g.took / time.Duration(max(1, total.taken))).Round(time.Millisecond))
	t.Log(table.String())
}

// hold asserts in each cell that ours reads as many as zbarimg, and the bar.
func (g *grid) hold(t *testing.T, lines []line) {
	t.Helper()
	total := count{}
	for _, l := range lines {
		for _, dpi := range resolutions {
			n := g.counts[l.name][dpi]
			total = total.add(n)
			if n.ours < n.zbar {
				t.Errorf("%s, %d dpi: ours read %d of %d, zbarimg %d", l.name, dpi, n.ours, n.taken, n.zbar)
			}
			if bar := l.bar(dpi); float64(n.ours) < bar*float64(n.taken) {
				t.Errorf("%s, %d dpi: ours read %d of %d, which is under %v", l.name, dpi, n.ours, n.taken, bar)
			}
		}
	}
	if total.taken == 0 || total.zbar == 0 {
		t.Errorf("%d pictures, of which zbarimg read %d: nothing was compared", total.taken, total.zbar)
	}
}
