package fluid

import "hourseal/record/quantity"

// Doubt is the standard uncertainty of each kind of measurement. Where a share
// and a least are given, the greater counts. The zero Doubt stands for TradeDoubt.
type Doubt struct {
	Jug              quantity.Ratio // of a filling that no sealed can gives
	JugLeast         quantity.Volume
	Can              quantity.Ratio // of sealed cans
	Extractor        quantity.Ratio // of an extractor's scale, or another scale that a drain is read off
	ExtractorLeast   quantity.Volume
	HangingScale     quantity.Mass
	Dipstick         quantity.Ratio       // of the span between the marks, all told
	DipstickReading  quantity.Ratio       // the part of Dipstick that differs from one reading to the next
	Thermometer      quantity.Temperature // a difference, in 1/10 K
	AtUpper          quantity.Ratio       // of the machine file's at_upper
	ToppedUp         quantity.Ratio       // of what an owner says was topped up
	Filter           quantity.Ratio       // of what the filter holds
	LeftByExtraction quantity.Ratio       // by how much what a drain leaves behind varies, of at_upper
}

// TradeDoubt is taken where yard.yaml does not say otherwise: trade judgement, no
// source.
var TradeDoubt = Doubt{
	Jug: 20, JugLeast: 100, Can: 10, Extractor: 30, ExtractorLeast: 250, HangingScale: 100,
	Dipstick: 120, DipstickReading: 80, Thermometer: 30, AtUpper: 30, ToppedUp: 200,
	Filter: 200, LeftByExtraction: 15,
}
