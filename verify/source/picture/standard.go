package picture

// levels of error correction in the order of the table, with the two bits that
// format information has for them (ISO/IEC 18004:2015, table 12).
const (
	levelL = iota
	levelM
	levelQ
	levelH
)

var levelOfBits = [4]int{0b01: levelL, 0b00: levelM, 0b11: levelQ, 0b10: levelH}

// blocks is how the codewords of a symbol are shared out: so many blocks, each
// with so many codewords for error correction. What is left of the symbol is
// data, the later blocks taking one codeword more where it does not divide.
type blocks struct{ count, check int }

type standard struct {
	alignment []int     // centres of alignment patterns along a side, in modules from 0
	blocks    [4]blocks // for L, M, Q, H
}

// standards has the versions 1 to 40: ISO/IEC 18004:2015, table E.1 (centres of
// alignment patterns) and table 9 (error correction). Copied from the tables of
// gozxing, and held by a test to symbols of go-qrcode, which has its own.
var standards = [41]standard{
	1:  {nil, [4]blocks{{1, 7}, {1, 10}, {1, 13}, {1, 17}}},
	2:  {[]int{6, 18}, [4]blocks{{1, 10}, {1, 16}, {1, 22}, {1, 28}}},
	3:  {[]int{6, 22}, [4]blocks{{1, 15}, {1, 26}, {2, 18}, {2, 22}}},
	4:  {[]int{6, 26}, [4]blocks{{1, 20}, {2, 18}, {2, 26}, {4, 16}}},
	5:  {[]int{6, 30}, [4]blocks{{1, 26}, {2, 24}, {4, 18}, {4, 22}}},
	6:  {[]int{6, 34}, [4]blocks{{2, 18}, {4, 16}, {4, 24}, {4, 28}}},
	7:  {[]int{6, 22, 38}, [4]blocks{{2, 20}, {4, 18}, {6, 18}, {5, 26}}},
	8:  {[]int{6, 24, 42}, [4]blocks{{2, 24}, {4, 22}, {6, 22}, {6, 26}}},
	9:  {[]int{6, 26, 46}, [4]blocks{{2, 30}, {5, 22}, {8, 20}, {8, 24}}},
	10: {[]int{6, 28, 50}, [4]blocks{{4, 18}, {5, 26}, {8, 24}, {8, 28}}},
	11: {[]int{6, 30, 54}, [4]blocks{{4, 20}, {5, 30}, {8, 28}, {11, 24}}},
	12: {[]int{6, 32, 58}, [4]blocks{{4, 24}, {8, 22}, {10, 26}, {11, 28}}},
	13: {[]int{6, 34, 62}, [4]blocks{{4, 26}, {9, 22}, {12, 24}, {16, 22}}},
	14: {[]int{6, 26, 46, 66}, [4]blocks{{4, 30}, {9, 24}, {16, 20}, {16, 24}}},
	15: {[]int{6, 26, 48, 70}, [4]blocks{{6, 22}, {10, 24}, {12, 30}, {18, 24}}},
	16: {[]int{6, 26, 50, 74}, [4]blocks{{6, 24}, {10, 28}, {17, 24}, {16, 30}}},
	17: {[]int{6, 30, 54, 78}, [4]blocks{{6, 28}, {11, 28}, {16, 28}, {19, 28}}},
	18: {[]int{6, 30, 56, 82}, [4]blocks{{6, 30}, {13, 26}, {18, 28}, {21, 28}}},
	19: {[]int{6, 30, 58, 86}, [4]blocks{{7, 28}, {14, 26}, {21, 26}, {25, 26}}},
	20: {[]int{6, 34, 62, 90}, [4]blocks{{8, 28}, {16, 26}, {20, 30}, {25, 28}}},
	21: {[]int{6, 28, 50, 72, 94}, [4]blocks{{8, 28}, {17, 26}, {23, 28}, {25, 30}}},
	22: {[]int{6, 26, 50, 74, 98}, [4]blocks{{9, 28}, {17, 28}, {23, 30}, {34, 24}}},
	23: {[]int{6, 30, 54, 78, 102}, [4]blocks{{9, 30}, {18, 28}, {25, 30}, {30, 30}}},
	24: {[]int{6, 28, 54, 80, 106}, [4]blocks{{10, 30}, {20, 28}, {27, 30}, {32, 30}}},
	25: {[]int{6, 32, 58, 84, 110}, [4]blocks{{12, 26}, {21, 28}, {29, 30}, {35, 30}}},
	26: {[]int{6, 30, 58, 86, 114}, [4]blocks{{12, 28}, {23, 28}, {34, 28}, {37, 30}}},
	27: {[]int{6, 34, 62, 90, 118}, [4]blocks{{12, 30}, {25, 28}, {34, 30}, {40, 30}}},
	28: {[]int{6, 26, 50, 74, 98, 122}, [4]blocks{{13, 30}, {26, 28}, {35, 30}, {42, 30}}},
	29: {[]int{6, 30, 54, 78, 102, 126}, [4]blocks{{14, 30}, {28, 28}, {38, 30}, {45, 30}}},
	30: {[]int{6, 26, 52, 78, 104, 130}, [4]blocks{{15, 30}, {29, 28}, {40, 30}, {48, 30}}},
	31: {[]int{6, 30, 56, 82, 108, 134}, [4]blocks{{16, 30}, {31, 28}, {43, 30}, {51, 30}}},
	32: {[]int{6, 34, 60, 86, 112, 138}, [4]blocks{{17, 30}, {33, 28}, {45, 30}, {54, 30}}},
	33: {[]int{6, 30, 58, 86, 114, 142}, [4]blocks{{18, 30}, {35, 28}, {48, 30}, {57, 30}}},
	34: {[]int{6, 34, 62, 90, 118, 146}, [4]blocks{{19, 30}, {37, 28}, {51, 30}, {60, 30}}},
	35: {[]int{6, 30, 54, 78, 102, 126, 150}, [4]blocks{{19, 30}, {38, 28}, {53, 30}, {63, 30}}},
	36: {[]int{6, 24, 50, 76, 102, 128, 154}, [4]blocks{{20, 30}, {40, 28}, {56, 30}, {66, 30}}},
	37: {[]int{6, 28, 54, 80, 106, 132, 158}, [4]blocks{{21, 30}, {43, 28}, {59, 30}, {70, 30}}},
	38: {[]int{6, 32, 58, 84, 110, 136, 162}, [4]blocks{{22, 30}, {45, 28}, {62, 30}, {74, 30}}},
	39: {[]int{6, 26, 54, 82, 110, 138, 166}, [4]blocks{{24, 30}, {47, 28}, {65, 30}, {77, 30}}},
	40: {[]int{6, 30, 58, 86, 114, 142, 170}, [4]blocks{{25, 30}, {49, 28}, {68, 30}, {81, 30}}},
}

// sideOf is the side of a version in modules.
func sideOf(version int) int { return 17 + 4*version }

// misread is how many codewords of a block are kept for noticing what could not
// be corrected, rather than for correcting (ISO/IEC 18004:2015, table 9, note b).
func misread(version, level int) int {
	switch {
	case version == 1 && level == levelL:
		return 3
	case version == 1 && level == levelM, version == 2 && level == levelL:
		return 2
	case version == 1, version == 3 && level == levelL:
		return 1
	default:
		return 0
	}
}

// masked says whether a mask turns the module at a row and a column over
// (ISO/IEC 18004:2015, table 10).
func masked(mask, r, c int) bool {
	switch mask {
	case 0:
		return (r+c)%2 == 0
	case 1:
		return r%2 == 0
	case 2:
		return c%3 == 0
	case 3:
		return (r+c)%3 == 0
	case 4:
		return (r/2+c/3)%2 == 0
	case 5:
		return r*c%2+r*c%3 == 0
	case 6:
		return (r*c%2+r*c%3)%2 == 0
	default:
		return ((r+c)%2+r*c%3)%2 == 0
	}
}
