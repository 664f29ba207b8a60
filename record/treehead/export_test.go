package treehead

// What the tests against published vectors need: entries of any length.
var (
	LeafHash   = leafHash
	NodeHash   = nodeHash
	Root       = root
	PathOf     = path
	RootFrom   = rootFrom
	PathLength = pathLength
)
