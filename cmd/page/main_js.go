//go:build js && wasm

package main

import (
	"encoding/json"
	"fmt"
	"syscall/js"
)

func main() {
	s := newSession()
	js.Global().Set("hourseal", js.ValueOf(map[string]any{
		"read":      call(func(a []js.Value) (any, error) { return s.read(bytesOf(a[0])) }),
		"readTexts": call(func(a []js.Value) (any, error) { return s.readTexts(a[0].String(), a[1].String()) }),
		"readPixels": call(func(a []js.Value) (any, error) {
			return s.readPixels(bytesOf(a[0]), a[1].Int(), a[2].Int(), a[3].Bool())
		}),
		"unread":  call(func(a []js.Value) (any, error) { return s.unread(a[0].String(), a[1].String()) }),
		"answer":  call(func(a []js.Value) (any, error) { return s.answer(a[0].Int(), a[1].String()) }),
		"content": call(func(a []js.Value) (any, error) { return s.content(a[0].Int()) }),
		"key":     call(func(a []js.Value) (any, error) { return keyOf(a[0].String(), a[1].String(), a[2].String()) }),
		"forget":  call(func(a []js.Value) (any, error) { s.forget(a[0].Int()); return struct{}{}, nil }),
	}))
	select {} // the functions live on
}

// call makes a function of the page's of one of ours: its answer is JSON, and
// an error or a panic is {"error"}.
func call(run func([]js.Value) (any, error)) js.Func {
	return js.FuncOf(func(_ js.Value, args []js.Value) (out any) {
		defer func() {
			if fault := recover(); fault != nil {
				out = text(nil, fmt.Errorf("this page failed: %v", fault))
			}
		}()
		return text(run(args))
	})
}

func text(value any, err error) string {
	if err == nil {
		var line []byte
		if line, err = json.Marshal(value); err == nil {
			return string(line)
		}
	}
	line, _ := json.Marshal(map[string]string{"error": clean(err.Error())})
	return string(line)
}

func bytesOf(array js.Value) []byte {
	data := make([]byte, array.Get("length").Int())
	js.CopyBytesToGo(data, array)
	return data
}
