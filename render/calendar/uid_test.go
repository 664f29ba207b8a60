package calendar

import (
	"regexp"
	"testing"

	"pgregory.net/rapid"
)

// uuid8 is a UUID of version 8 and variant 10, in lower case (RFC 9562, 4).
var uuid8 = regexp.MustCompile(`^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$`)

// TestUID: the names of some items, for ever. They were worked out with Python's
// hashlib, struct and uuid from the documentation of UID.
func TestUID(t *testing.T) {
	for _, c := range []struct{ yard, machine, serial, task, want string }{
		{"Ellery Slip Boatyard", "gannet-port", "0045120", "engine-oil", "f0467c27-5e2f-8fed-92ed-0ce3da806fa5"},
		{"Ellery Slip Boatyard", "gannet-port", "0045120", "impeller", "e47e7f31-f62c-87e0-b7bc-3a7788f5d9e7"},
		{"Ellery Slip Boatyard", "gannet-starboard", "0045121", "engine-oil", "cc7539e2-854f-85db-b0e0-7aee2472cc0c"},
		{"", "", "", "", "20caab26-1db6-8636-8adc-e4759e793895"},
	} {
		if got := UID(c.yard, c.machine, c.serial, c.task); got != c.want || !uuid8.MatchString(got) {
			t.Errorf("%+v: %s", c, got)
		}
	}
}

// TestUIDKeepsPartsApart: four parts have the name of four others only if they
// are the same four, wherever the one ends and the next begins.
func TestUIDKeepsPartsApart(t *testing.T) {
	part := rapid.StringOfN(rapid.SampledFrom([]rune("ab\x00\x01")), 0, 3, -1)
	parts := rapid.Custom(func(t *rapid.T) [4]string {
		return [4]string{part.Draw(t, "yard"), part.Draw(t, "machine"), part.Draw(t, "serial"), part.Draw(t, "task")}
	})
	name := func(p [4]string) string { return UID(p[0], p[1], p[2], p[3]) }
	rapid.Check(t, func(t *rapid.T) {
		a, b := parts.Draw(t, "one"), parts.Draw(t, "other")
		if rapid.Bool().Draw(t, "the same in other parts") {
			whole := a[0] + a[1]
			cut := rapid.IntRange(0, len(whole)).Draw(t, "cut")
			b = [4]string{whole[:cut], whole[cut:], a[2], a[3]}
		}
		if (name(a) == name(b)) != (a == b) {
			t.Fatalf("%q and %q: %s and %s", a, b, name(a), name(b))
		}
		if !uuid8.MatchString(name(a)) {
			t.Fatalf("%q: %s", a, name(a))
		}
	})
}
