package record

import (
	"maps"
	"slices"
	"testing"
)

func TestUsualTitles(t *testing.T) {
	for _, id := range slices.Sorted(maps.Keys(usualTitles)) {
		if title := usualTitles[id]; !isID(id) || title == "" || CheckText(title, MaxText) != nil {
			t.Errorf("%s: %q", id, title)
		}
	}
}
