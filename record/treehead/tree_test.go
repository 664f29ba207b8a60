package treehead_test

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/treehead"
)

// The reference tree of the certificate-transparency tests: entries, and the roots of
// the trees of the first 0, 1, ... 8 of them. Source: github.com/transparency-dev/merkle,
// testonly/constants.go, LeafInputs and RootHashes.
var (
	entries = []string{"", "00", "10", "2021", "3031", "40414243", "5051525354555657", "606162636465666768696a6b6c6d6e6f"}
	roots   = []string{
		"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
		"6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
		"fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
		"aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
		"d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
		"4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
		"76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef",
		"ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c",
		"5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
	}
)

// paths are inclusion proofs in trees of those entries, their places from 0. Source:
// the same module, proof/verify_test.go, inclusionProofs, whose places are from 1.
var paths = []struct {
	index, size int
	hashes      []string
}{
	{0, 1, nil},
	{0, 8, []string{
		"96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
		"5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
		"6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
	}},
	{5, 8, []string{
		"bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
		"ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
		"d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
	}},
	{2, 3, []string{"fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125"}},
	{1, 5, []string{
		"6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
		"5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
		"bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
	}},
}

func unhex(t testing.TB, text string) []byte {
	t.Helper()
	data, err := hex.DecodeString(text)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func leavesOf(t testing.TB, n int) []treehead.Hash {
	t.Helper()
	var leaves []treehead.Hash
	for _, entry := range entries[:n] {
		leaves = append(leaves, treehead.LeafHash(unhex(t, entry)))
	}
	return leaves
}

func TestPublishedRoots(t *testing.T) {
	for n, want := range roots {
		if got := treehead.Root(leavesOf(t, n)).String(); got != want {
			t.Errorf("%d entries: %s, want %s", n, got, want)
		}
	}
}

func TestPublishedPaths(t *testing.T) {
	for _, c := range paths {
		leaves := leavesOf(t, c.size)
		var proof []treehead.Hash
		var got []string
		for _, h := range treehead.PathOf(c.index, leaves) {
			got = append(got, h.String())
		}
		if !slices.Equal(got, c.hashes) {
			t.Errorf("place %d of %d: %v, want %v", c.index, c.size, got, c.hashes)
		}
		for _, text := range c.hashes {
			proof = append(proof, treehead.Hash(unhex(t, text)))
		}
		root, ok := treehead.RootFrom(leaves[c.index], uint32(c.index), uint32(c.size), proof)
		if !ok || root.String() != roots[c.size] {
			t.Errorf("place %d of %d: leads to %s, %t", c.index, c.size, root, ok)
		}
		if got := treehead.PathLength(uint32(c.index), uint32(c.size)); got != len(c.hashes) {
			t.Errorf("place %d of %d: length %d", c.index, c.size, got)
		}
	}
}

// plainRoot is the definition of RFC 9162, section 2.1.1, word for word, over entries.
func plainRoot(entries [][]byte) [32]byte {
	n := len(entries)
	if n == 0 {
		return sha256.Sum256(nil)
	}
	if n == 1 {
		return sha256.Sum256(slices.Concat([]byte{0}, entries[0]))
	}
	k := 1
	for k*2 < n {
		k *= 2
	}
	left, right := plainRoot(entries[:k]), plainRoot(entries[k:])
	return sha256.Sum256(slices.Concat([]byte{1}, left[:], right[:]))
}

func drawIDs(t *rapid.T) []record.ID {
	n := rapid.IntRange(0, 70).Draw(t, "chains")
	ids := make([]record.ID, n)
	for i := range ids {
		ids[i] = sha256.Sum256([]byte{byte(i), byte(rapid.IntRange(0, 255).Draw(t, "salt"))})
	}
	return ids
}

// TestAgainstTheDefinition: the root is that of the definition over the sorted ids,
// whatever their order was; every id has a path to it; no path leads to it from another
// id, place or size, nor with a hash changed, left out or added.
func TestAgainstTheDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := drawIDs(t)
		tree := treehead.New(1_800_000_000, ids)
		line := tree.Line()
		var sorted [][]byte
		for _, id := range ids {
			sorted = append(sorted, slices.Clone(id[:]))
		}
		slices.SortFunc(sorted, slices.Compare)
		if want := plainRoot(sorted); line.Root != want || int(line.Chains) != len(ids) || line.Time != 1_800_000_000 {
			t.Fatalf("%v, want %x of %d", line, want, len(ids))
		}
		shuffled := rapid.Permutation(ids).Draw(t, "order")
		if again := treehead.New(1_800_000_000, shuffled).Line(); again != line {
			t.Fatalf("in another order: %v, want %v", again, line)
		}
		if _, there := tree.Path(record.ID{1}); there {
			t.Fatal("a path for an id that is not in the tree")
		}
		for _, id := range ids {
			path, there := tree.Path(id)
			if !there || path.Last != id || !path.LeadsTo(line) {
				t.Fatalf("%x: no path: %v", id, path)
			}
			if got := treehead.PathLength(path.Index, path.Chains); got != len(path.Hashes) {
				t.Fatalf("path of %d, PathLength says %d", len(path.Hashes), got)
			}
		}
		if len(ids) == 0 {
			return
		}
		path, _ := tree.Path(rapid.SampledFrom(ids).Draw(t, "id"))
		for what, wrong := range spoilt(path, rapid.IntRange(0, 255).Draw(t, "bit")) {
			if wrong.LeadsTo(line) {
				t.Fatalf("%s: %v leads to %v", what, wrong, line)
			}
		}
	})
}

// spoilt are paths that differ from a good one in one thing.
func spoilt(path treehead.Path, bit int) map[string]treehead.Path {
	wrong := map[string]treehead.Path{}
	change := func(what string, by func(*treehead.Path)) {
		p := path
		p.Hashes = slices.Clone(path.Hashes)
		by(&p)
		wrong[what] = p
	}
	flip := func(h *[32]byte) { h[bit/8] ^= 1 << (bit % 8) }
	change("id", func(p *treehead.Path) { flip((*[32]byte)(&p.Last)) })
	change("time", func(p *treehead.Path) { p.Time++ })
	change("place", func(p *treehead.Path) { p.Index ^= 1 })
	change("far place", func(p *treehead.Path) { p.Index = p.Chains })
	change("size", func(p *treehead.Path) { p.Chains++ })
	change("hash too many", func(p *treehead.Path) { p.Hashes = append(p.Hashes, treehead.Hash{}) })
	for i := range path.Hashes {
		change("hash", func(p *treehead.Path) { flip((*[32]byte)(&p.Hashes[i])) })
	}
	if n := len(path.Hashes); n > 0 {
		change("hash too few", func(p *treehead.Path) { p.Hashes = p.Hashes[:n-1] })
		change("first hash gone", func(p *treehead.Path) { p.Hashes = p.Hashes[1:] })
	}
	return wrong
}

// TestProofOfAnotherSize: the hashes that lead to the root of two entries do not lead
// there where the line says that there are more (RFC 9162, section 2.1.3.2, step 5: sn
// is 0 at the end).
func TestProofOfAnotherSize(t *testing.T) {
	leaves := leavesOf(t, 2)
	proof := treehead.PathOf(0, leaves)
	for size := uint32(1); size < 9; size++ {
		root, ok := treehead.RootFrom(leaves[0], 0, size, proof)
		if (ok && root.String() == roots[2]) != (size == 2) {
			t.Errorf("size %d: %s, %t", size, root, ok)
		}
	}
}

// TestNodeIsNoLeaf: an entry that looks like two hashes is told apart from a node of
// them (RFC 9162, section 2.1.1, on the prefixes).
func TestNodeIsNoLeaf(t *testing.T) {
	leaves := leavesOf(t, 2)
	if treehead.LeafHash(slices.Concat(leaves[0][:], leaves[1][:])) == treehead.NodeHash(leaves[0], leaves[1]) {
		t.Error("a leaf has the hash of a node")
	}
}
