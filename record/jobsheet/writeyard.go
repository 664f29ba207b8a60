package jobsheet

import "reflect"

// RenameYard puts a name into the text of yard.yaml, in the place of the one that is there. All
// else, comments too, stays as it stands. File is its name in messages. The key must begin
// a line. The error is Faults of the text, or says what is wrong with the name.
func RenameYard(file string, data []byte, name string) ([]byte, error) {
	name, err := LineText(name)
	if err != nil {
		return nil, err
	}
	yard, err := ParseYard(file, data)
	if err != nil {
		return nil, err
	}
	keys := groupOf(yardForm, map[string]written{"name": writeText(name)}).keys
	renamed, ok := replaceKey(data, keys[0])
	yard.Name = name
	if read, err := ParseYard(file, renamed); !ok || err != nil || !reflect.DeepEqual(read, yard) {
		return nil, Faults{{File: file, Message: "the name cannot be replaced as it is written: write it by hand"}}
	}
	return renamed, nil
}
