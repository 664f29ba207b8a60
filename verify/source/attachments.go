package source

import (
	"bytes"
	"crypto/md5"
	"encoding/hex"
	"fmt"
	"slices"
	"strconv"
	"unicode/utf16"
)

// Names of the attachments, as a person sees them in a viewer.
const (
	recordName = "record.cose"
	textName   = "record.txt"
	keysName   = "keys.cose"
)

// attachmentLimits holds the largest size of each attachment, in bytes; what is
// not in here is no attachment of a report.
var attachmentLimits = map[string]int{
	recordName: MaxRecordBytes,
	textName:   MaxTextBytes,
	keysName:   MaxKeysBytes,
}

// attachmentName says which stream object is which attachment.
type attachmentName struct {
	object int
	name   string
}

// readAttachments follows catalog, /Names, /EmbeddedFiles, file specification
// and /EF to the attached files. embeddedFiles and fileLinks are how many there
// are in the whole document, by whatever way they are reached.
func (p *PDF) readAttachments(embeddedFiles, fileLinks int) error {
	catalog := p.number(len(p.objects))
	fault := func(reason string) error {
		return &LayoutError{Object: catalog.number, At: catalog.from, Reason: reason}
	}
	names, ok := dictOf(catalog.dict.get("Names"))
	if !ok || !names.only("EmbeddedFiles") {
		return fault("the catalog names more than attachments")
	}
	tree, ok := dictOf(names.get("EmbeddedFiles"))
	if !ok || !tree.only("Names") {
		return fault("the list of attachments is not plain")
	}
	specs, ok := attachmentRefs(tree.get("Names"))
	if !ok {
		return fault("the list of attachments is not one that this program writes")
	}
	if embeddedFiles != len(specs) || fileLinks != len(specs) {
		return fault("the file holds an attachment that is not in its list of attachments")
	}
	found := map[string][]byte{}
	for _, spec := range specs {
		name, content, err := p.readAttachment(spec)
		if err != nil {
			return err
		}
		if _, twice := found[name]; twice {
			return fault(fmt.Sprintf("two attachments are named %s", name))
		}
		found[name] = content
	}
	for _, name := range []string{recordName, textName} {
		if found[name] == nil {
			return fault(fmt.Sprintf("the attachment %s is missing", name))
		}
	}
	p.envelope, p.keys = found[recordName], found[keysName]
	return p.checkText(found[textName])
}

// attachmentRefs reads "[ (Attachement1) N 0 R … ]"; the spelling is the
// writer's.
func attachmentRefs(value []byte) ([]int, bool) {
	s := scanner{data: value}
	if !s.literal("[") {
		return nil, false
	}
	var refs []int
	for {
		s.space()
		if s.literal("]") {
			return refs, s.pos == len(value)
		}
		if !s.literal("(Attachement" + strconv.Itoa(len(refs)+1) + ") ") {
			return nil, false
		}
		n, ok := s.natural()
		if !ok || !s.literal(" 0 R") || len(refs) == len(attachmentLimits) {
			return nil, false
		}
		refs = append(refs, n)
	}
}

// readAttachment reads the attachment of the file specification with that
// object number.
func (p *PDF) readAttachment(number int) (name string, content []byte, err error) {
	spec := p.number(number)
	fault := func(reason string) (string, []byte, error) {
		return "", nil, &LayoutError{Object: spec.number, At: spec.from, Reason: reason}
	}
	if spec == nil {
		return "", nil, &LayoutError{Object: number, Reason: "an attachment that is not there"}
	}
	d := spec.dict
	if spec.hasStream() || !d.only("Type", "F", "UF", "EF", "Desc") || !d.is("Type", "/Filespec") || !d.is("F", "()") {
		return fault("not the description of an attachment")
	}
	name = utf16Text(unescape(d.get("UF")))
	limit, known := attachmentLimits[name]
	if !known {
		return fault("an attachment that is none of record.cose, record.txt and keys.cose")
	}
	link, ok := dictOf(d.get("EF"))
	stream, isRef := reference(link.get("F"))
	if !ok || !isRef || len(link) != 1 {
		return fault("an attachment without a file")
	}
	o := p.number(stream)
	if o == nil || !o.deflated || !o.dict.is("Type", "/EmbeddedFile") || !o.dict.only("Type", "Length", "Filter", "Params") {
		return fault("an attachment's file is not of the form that this program writes")
	}
	content, reason := p.readFile(o, limit)
	if reason != "" {
		return "", nil, &LayoutError{Object: o.number, At: o.contentFrom, Reason: name + ": " + reason}
	}
	p.names = append(p.names, attachmentName{o.number, name})
	return name, content, nil
}

// readFile inflates an embedded file and holds it to its stated size and
// checksum (MD5, ISO 32000-1 table 46; it guards against accidents only).
func (p *PDF) readFile(o *object, limit int) (content []byte, reason string) {
	params, ok := dictOf(o.dict.get("Params"))
	size, sized := naturalOf(params.get("Size"))
	if !ok || !sized || !params.only("CheckSum", "Size") {
		return nil, "size or checksum is missing"
	}
	if size > limit {
		return nil, fmt.Sprintf("longer than %d bytes", limit)
	}
	content = make([]byte, 0, size)
	if _, err := inflate(p.content(o), size, func(b []byte) { content = append(content, b...) }); err != nil {
		return nil, err.Error()
	}
	sum := md5.Sum(content)
	if len(content) != size || !params.is("CheckSum", "<"+hex.EncodeToString(sum[:])+">") {
		return nil, "size or checksum is wrong"
	}
	return content, ""
}

// checkText makes sure that record.txt holds the record of record.cose.
func (p *PDF) checkText(text []byte) error {
	fault := func(reason string) error {
		return &LayoutError{Object: p.namedObject(textName), Reason: reason}
	}
	if err := soundEnvelope(p.envelope); err != nil {
		return &LayoutError{Object: p.namedObject(recordName), Reason: "record.cose is damaged: " + err.Error()}
	}
	p.texts = textLines(text)
	if !bytes.Equal(joinLines(p.texts), bytes.TrimSuffix(text, []byte("\n"))) {
		return fault("record.txt is not one QR text a line")
	}
	groups, err := groupTexts(p.texts)
	if err == nil && (len(groups) != 1 || len(p.texts) != max(1, groups[0].parts[0].Count)) {
		return fault("record.txt is not the texts of one record, each once")
	}
	t, err := oneRecord(p.texts)
	if err != nil {
		return fault("record.txt: " + err.Error())
	}
	if slices.ContainsFunc(p.texts, isFragment) {
		return fault("record.txt holds a text without its beginning")
	}
	if !bytes.Equal(t.envelope, p.envelope) {
		return &LayoutError{Object: p.namedObject(textName), Reason: "record.txt holds another record", attached: p.envelope}
	}
	p.host = t.host
	return nil
}

func (p *PDF) namedObject(name string) int {
	for _, n := range p.names {
		if n.name == name {
			return n.object
		}
	}
	return 0
}

func joinLines(lines []string) []byte {
	var b []byte
	for i, line := range lines {
		if i > 0 {
			b = append(b, '\n')
		}
		b = append(b, line...)
	}
	return b
}

// utf16Text decodes a text string in UTF-16BE with its byte order mark
// (ISO 32000-1 section 7.9.2.2); anything else is "".
func utf16Text(b []byte) string {
	if len(b) < 2 || len(b)%2 != 0 || b[0] != 0xFE || b[1] != 0xFF {
		return ""
	}
	units := make([]uint16, 0, len(b)/2)
	for i := 2; i < len(b); i += 2 {
		units = append(units, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(units))
}
