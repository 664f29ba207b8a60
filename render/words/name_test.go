package words

import "testing"

// TestCapital: the first letter whatever its bytes, and nothing made of nothing.
func TestCapital(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "engine oil": "Engine oil", "Engine oil": "Engine oil", "öl": "Öl", "7 filters": "7 filters",
	} {
		if got := capital(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
	if got := Name("engine-oil_level"); got != "Engine oil level" {
		t.Error(got)
	}
	if got := Name(""); got != "" {
		t.Errorf("a name of nothing: %q", got)
	}
}
