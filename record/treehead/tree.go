package treehead

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"math/bits"
	"slices"

	"hourseal/record"
)

// Hash is a hash of the tree: SHA-256.
type Hash [sha256.Size]byte

// String gives the hexadecimal digits.
func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// MarshalText gives the hexadecimal digits for JSON.
func (h Hash) MarshalText() ([]byte, error) { return hex.AppendEncode(nil, h[:]), nil }

// leafHash is the hash of an entry: RFC 9162, section 2.1.1.
func leafHash(entry []byte) Hash {
	return sha256.Sum256(append([]byte{0x00}, entry...))
}

// nodeHash is the hash of two hashes: RFC 9162, section 2.1.1.
func nodeHash(left, right Hash) Hash {
	both := make([]byte, 0, 1+2*sha256.Size)
	both = append(append(append(both, 0x01), left[:]...), right[:]...)
	return sha256.Sum256(both)
}

// split is the largest power of two below n, which is 2 or more.
func split(n int) int { return 1 << (bits.Len(uint(n-1)) - 1) }

// root is the hash of a tree of these leaves: RFC 9162, section 2.1.1.
func root(leaves []Hash) Hash {
	switch n := len(leaves); n {
	case 0:
		return sha256.Sum256(nil)
	case 1:
		return leaves[0]
	default:
		k := split(n)
		return nodeHash(root(leaves[:k]), root(leaves[k:]))
	}
}

// path is the inclusion proof of the leaf at index, from the leaf up: RFC 9162,
// section 2.1.3.1.
func path(index int, leaves []Hash) []Hash {
	n := len(leaves)
	if n <= 1 {
		return nil
	}
	if k := split(n); index < k {
		return append(path(index, leaves[:k]), root(leaves[k:]))
	} else {
		return append(path(index-k, leaves[k:]), root(leaves[:k]))
	}
}

// rootFrom is the root that a proof leads to from a leaf, by the steps of RFC 9162,
// section 2.1.3.2; not ok where the proof has not the length that index and size call
// for.
func rootFrom(leaf Hash, index, size uint32, proof []Hash) (Hash, bool) {
	if index >= size {
		return Hash{}, false
	}
	fn, sn, r := index, size-1, leaf
	for _, p := range proof {
		if sn == 0 {
			return Hash{}, false
		}
		if fn&1 == 1 || fn == sn {
			r = nodeHash(p, r)
			for fn&1 == 0 && fn != 0 {
				fn, sn = fn>>1, sn>>1
			}
		} else {
			r = nodeHash(r, p)
		}
		fn, sn = fn>>1, sn>>1
	}
	return r, sn == 0
}

// Tree is the ids of the last record of each chain, as they were at a time.
type Tree struct {
	time   int64
	ids    []record.ID // sorted as bytes
	leaves []Hash
}

// New makes the tree of the last records' ids at a time, in seconds since 1970, in
// whatever order they are given.
func New(time int64, last []record.ID) Tree {
	ids := slices.Clone(last)
	slices.SortFunc(ids, func(a, b record.ID) int { return bytes.Compare(a[:], b[:]) })
	leaves := make([]Hash, len(ids))
	for i, id := range ids {
		leaves[i] = leafHash(id[:])
	}
	return Tree{time, ids, leaves}
}

// Line is the line that fixes the tree.
func (t Tree) Line() Line {
	return Line{Time: t.time, Chains: uint32(len(t.ids)), Root: root(t.leaves)}
}

// Path is the proof that a record's id is in the tree; not ok where it is not.
func (t Tree) Path(id record.ID) (Path, bool) {
	index, there := slices.BinarySearchFunc(t.ids, id, func(a, b record.ID) int { return bytes.Compare(a[:], b[:]) })
	if !there {
		return Path{}, false
	}
	return Path{Time: t.time, Chains: uint32(len(t.ids)), Index: uint32(index), Last: id, Hashes: path(index, t.leaves)}, true
}
