package render

import (
	"errors"
	"fmt"
	"sync"

	"github.com/skip2/go-qrcode"

	"hourseal/render/sheet"
)

// symbolSide is how wide a code is, without the white around it.
var symbolSide = sheet.MM(80)

// quietModules is the white around a code on each side (ISO/IEC 18004).
const quietModules = 4

// maxSymbols is more than any record needs: 16 KiB of digits in codes of
// version 25 make 18.
const maxSymbols = 99

// symbol is a QR code without the white around it.
type symbol struct{ dark [][]bool }

// module is the side of one module, rounded down to 1/100 pt, so that every
// edge is exact in the file.
func (s symbol) module() sheet.Len { return symbolSide / sheet.Len(len(s.dark)) }

func (s symbol) side() sheet.Len  { return s.module() * sheet.Len(len(s.dark)) }
func (s symbol) quiet() sheet.Len { return s.module() * quietModules }

// symbolsOf makes the codes of the texts, each at level M in the smallest
// version that holds it.
func symbolsOf(texts []string) ([]symbol, error) {
	if len(texts) == 0 {
		return nil, errors.New("no text for the code")
	}
	if len(texts) > maxSymbols {
		return nil, fmt.Errorf("%d texts for codes, at most %d", len(texts), maxSymbols)
	}
	// Choosing the best of eight masks is half the work of a whole report.
	symbols, faults := make([]symbol, len(texts)), make([]error, len(texts))
	var all sync.WaitGroup
	for i, text := range texts {
		all.Go(func() { symbols[i], faults[i] = symbolOf(text) })
	}
	all.Wait()
	for i, err := range faults {
		if err != nil {
			return nil, fmt.Errorf("code %d of %d: %w", i+1, len(texts), err)
		}
	}
	return symbols, nil
}

// whileSetting begins to make the codes and gives what waits for them, so that
// the page is laid out meanwhile.
func whileSetting(texts []string) func() ([]symbol, error) {
	var symbols []symbol
	var fault error
	var made sync.WaitGroup
	made.Go(func() { symbols, fault = symbolsOf(texts) })
	return func() ([]symbol, error) {
		made.Wait()
		return symbols, fault
	}
}

// symbolOf makes one code. The encoder reports its own faults by log.Panic,
// which must not reach a caller.
func symbolOf(text string) (s symbol, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("make the code: %v", fault)
		}
	}()
	code, err := qrcode.New(text, qrcode.Medium)
	if err != nil {
		return symbol{}, fmt.Errorf("make the code: %w", err)
	}
	code.DisableBorder = true
	return symbol{dark: code.Bitmap()}, nil
}
