package record

// The modes, for the vectors of RFC 8949.
var (
	EncMode = encMode
	DecMode = decMode
)
