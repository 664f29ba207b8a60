package quantity

import (
	"encoding/json"
	"testing"
)

func TestMeasuredJSON(t *testing.T) {
	for text, want := range map[string]string{
		"2.4 US gal at 68 C": `[{"written":"2.4 US gal","litres":9.085,"kilograms":null,"at":68.0}]`,
		"7.7 kg":             `[{"written":"7.7 kg","litres":null,"kilograms":7.700,"at":null}]`,
		"not measured":       `"not measured"`,
	} {
		m, err := ParseMeasured(text)
		if err != nil {
			t.Fatal(err)
		}
		if got, err := json.Marshal(m); err != nil || string(got) != want {
			t.Errorf("%s: %s, %v; want %s", text, got, err, want)
		}
	}
	f, err := ParseFigure("-27 C")
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := json.Marshal(f); string(got) != `"-27 C"` {
		t.Errorf("figure: %s", got)
	}
}
