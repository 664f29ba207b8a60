package record

// EncMode is the encoder, for the vectors of RFC 8949 and for records that Encode
// refuses to write.
var EncMode = encMode

// Read is the reader without the comparison and the checks that follow it, and
// FillUsualTitles is one of those.
var (
	Read            = read
	FillUsualTitles = fillUsualTitles
)

// The reader's single items; each takes one item and nothing behind it.
var (
	ReadNumber = one(number[int64])
	ReadText   = one((*reader).text)
	ReadTruth  = one((*reader).truth)
	ReadBytes  = one(func(r *reader, place string) string { return r.content(place, byteString) })
	ReadDigest = one((*reader).digest)
	ReadList   = one(func(r *reader, place string) []int64 {
		return list(r, place, 25, "entry", func(r *reader, n *int64) { *n = number[int64](r, "") })
	})
	ReadMap = one(func(r *reader, place string) map[byte]int64 {
		pairs := map[byte]int64{}
		f := r.fields(place)
		for key := range byte(30) {
			if f.has(key) {
				pairs[key] = number[int64](r, "value")
			}
		}
		f.end()
		return pairs
	})
	ReadTechnician = one(func(r *reader, _ string) By { return r.by() })
)

func one[T any](item func(*reader, string) T) func([]byte) (T, error) {
	return func(data []byte) (T, error) {
		r := &reader{data: string(data)}
		v := item(r, "item")
		if r.at < len(r.data) {
			r.fail("", errBehind)
		}
		return v, r.failure()
	}
}
