package jobsheet

import (
	"slices"

	"go.yaml.in/yaml/v3"

	"hourseal/record"
)

const seenWanted = "the word nothing, or { what: [water, metal, fuel], why: a reason }"

// seen reads what was seen in what came out, and the answer to it. Words without
// braces are taken too: the check then asks for the reason.
func seen(f fields) ([]record.Sight, *record.Answer) {
	e, there := f.values["seen"]
	if !there {
		return nil, nil
	}
	if e.node.Kind != yaml.MappingNode {
		return sights(f, "seen"), nil
	}
	g := e.fields(seenForm)
	saw, said := sights(g, "what"), answer(g)
	if slices.Contains(saw, record.SawNothing) && said != nil {
		g.values["what"].fail("nothing, beside an answer to it: write seen: nothing and leave the answer out, or what was seen, of water, metal, fuel")
	}
	return saw, said
}

// sights reads one sight or several. Nothing stands alone.
func sights(f fields, name string) []record.Sight {
	saw := several(f, name, record.MaxSights, enum[record.Sight](record.SightWords))
	e, there := f.values[name]
	switch {
	case !there:
	case e.node.Kind == yaml.SequenceNode && len(e.node.Content) == 0:
		e.fail("an empty list: write %s", e.want)
	case len(saw) > 1 && slices.Contains(saw, record.SawNothing):
		e.fail("nothing, beside what was seen: keep one of the two")
	}
	return saw
}
