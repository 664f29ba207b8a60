package record

// usualTitles are the titles that go without saying: a task whose title is the
// usual one for its id carries none in its bytes, which keeps the QR code small.
// The table is part of format 1 and never changes; a schedule that words a task
// differently puts its own title in the record.
var usualTitles = map[string]string{
	"engine-oil":            "Change the engine oil",
	"oil-filter":            "Fit a new oil filter",
	"belt-look":             "Look over the drive belt",
	"belt":                  "Fit a new drive belt",
	"coolant-strength":      "Measure the coolant's freezing point",
	"impeller":              "Fit a new raw-water impeller",
	"fuel-filter-primary":   "Fit a new element in the primary fuel filter, drain its water",
	"fuel-filter-secondary": "Fit a new secondary fuel filter, on the engine",
	"air-filter":            "Look at the air filter and clean it",
	"raw-water-strainer":    "Clean the raw-water strainer and work the sea cock",
	"coolant":               "Change the coolant",
	"heat-exchanger":        "Open and clean the raw-water side of the heat exchanger",
	"anodes":                "Fit new anodes in the engine's raw-water side",
	"exhaust":               "Look over the exhaust elbow, mixer, hose and clamps",
	"hoses":                 "Look over the water, oil and fuel hoses and their clips",
	"valve-clearances":      "Check the valve clearances and set them",
	"engine-mounts":         "Look over the engine mounts and their bolts",
	"shaft-seal":            "Look at the shaft seal or stern gland",
	"batteries":             "Measure the starting battery at rest, clean its terminals",
	"alarms":                "Try the oil-pressure and temperature alarms",
	"mounts":                "Look over the mounts and their bolts",
	"output":                "Measure voltage and frequency, without load and under load",
	"terminals":             "Look over the terminals, earth strap and cable glands, dead and locked off",
	"gear-oil":              "Change the gear oil",
	"gear-oil-strainer":     "Clean the gear oil's strainer, look for metal on the magnet",
	"gear-breather":         "Clean the breather",
	"gear-cooler":           "Look over the gear's cooler and its hoses",
	"cooler-anode":          "Fit a new anode in the cooler",
	"output-seal":           "Look at the seals of the shafts for oil",
	"flexible-coupling":     "Look over the flexible coupling and its bolts",
	"shaft-alignment":       "Measure the gap at the shaft's flange, afloat",
	"shift-cable":           "Set the shift cable, so that the lever goes home both ways",
	"gear-mounts":           "Look over the mounts and their bolts",
	"drive-oil":             "Change the drive oil",
	"drive-oil-look":        "Look at the drive oil for water, afloat",
	"propeller-shaft-seals": "Fit new propeller shaft seals",
	"diaphragm-look":        "Look over the diaphragm and its clamp ring from inside",
	"diaphragm":             "Fit a new diaphragm",
	"water-alarm":           "Try the water alarm between the diaphragm's seals",
	"leg-paint":             "Look over the leg for bare metal and its paint",
	"propeller":             "Take the propeller off, look over it, the shaft and the nut's lock",
	"water-inlet":           "Clean the leg's water inlets and work the cock",
	"drive-mounts":          "Look over the mounts of engine and drive",
	"fuel-filter":           "Fit a new fuel filter",
	"fuel-line":             "Look over the fuel hose, bulb and couplings, and sniff",
	"spark-plugs":           "Fit new spark plugs",
	"thermostat":            "Take the thermostat out, clean it and try it",
	"timing-belt-look":      "Look over the timing belt, where there is one",
	"steering-and-tilt":     "Work and grease steering, swivel and tilt, look at the tilt's fluid",
	"controls":              "Set the throttle and shift cables",
	"kill-cord":             "Try the kill cord and the start-in-gear lock",
	"clamps":                "Look over the clamp screws or transom bolts",
	"battery":               "Measure the starting battery at rest, clean its terminals",
}

// withoutUsualTitles is the record as it is encoded. The record itself is not
// changed.
func withoutUsualTitles(r *Record) *Record {
	short := *r
	short.Tasks = make([]Task, len(r.Tasks))
	copy(short.Tasks, r.Tasks)
	for i := range short.Tasks {
		if t := &short.Tasks[i]; t.Title == usualTitles[t.ID] {
			t.Title = ""
		}
	}
	return &short
}

// fillUsualTitles is the inverse. It fails where a usual title is written out,
// which is not the canonical form.
func fillUsualTitles(r *Record) bool {
	for i := range r.Tasks {
		t := &r.Tasks[i]
		usual := usualTitles[t.ID]
		switch t.Title {
		case "":
			t.Title = usual
		case usual:
			return false
		}
	}
	return true
}
