package fluid

import (
	"math"

	"hourseal/record/quantity"
)

// ArmyRow is a strength and what it is said to protect to.
type ArmyRow struct {
	ByVolume quantity.Ratio
	Freezing quantity.Temperature
}

// armyTable is as printed: by volume, and degF.
var armyTable = []struct {
	byVolume quantity.Ratio
	degF     float64
}{
	{250, 10},
	{406, -10},
	{500, -30},
	{531, -40},
}

// ArmyTable is what the United States Army and Navy allow inhibited ethylene glycol
// to be trusted for, weakest first, to 1/10 degC: TM 9-6115-464-12 / NAVFAC
// P-8-624-12, Table 2-1. It is on the careful side of FreezingPoint: by 0.2 K at its
// weak end, by 4 to 5.4 K from 40 % on.
func ArmyTable() []ArmyRow {
	var rows []ArmyRow
	for _, row := range armyTable {
		tenths := math.Round(fromDegF(row.degF) * float64(quantity.Degree))
		rows = append(rows, ArmyRow{row.byVolume, quantity.Temperature(tenths)})
	}
	return rows
}

// ArmyFreezingPoint is what ArmyTable says of a strength by volume, in a straight
// line from row to row, in whole degrees, half towards warm. It reports false
// outside the table.
func ArmyFreezingPoint(volumeShare quantity.Ratio) (quantity.Temperature, bool) {
	for i, stronger := range armyTable[1:] {
		weaker := armyTable[i]
		if volumeShare < weaker.byVolume || volumeShare > stronger.byVolume {
			continue
		}
		along := float64(volumeShare-weaker.byVolume) / float64(stronger.byVolume-weaker.byVolume)
		return wholeDegrees(fromDegF(weaker.degF + along*(stronger.degF-weaker.degF))), true
	}
	return 0, false
}

func fromDegF(degF float64) float64 { return (degF - 32) / 1.8 }
