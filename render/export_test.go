package render

// What the report takes over from the check.
const (
	BeyondChance   = beyondChance
	DieselBurns    = dieselBurns
	PetrolBurns    = petrolBurns
	AssumedDensity = assumedDensity
)
