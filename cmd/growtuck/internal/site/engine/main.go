//go:build js && wasm

// Command engine is the page without a server: its handlers, compiled for a
// browser, where a service worker asks them (see package site).
//
// It sets growtuckAnswer, a function of method, address, headers (a Headers) and
// body (a Uint8Array), which promises status, headers and body; then it calls
// growtuckReady.
package main

import (
	"bytes"
	"net/http"
	"syscall/js"

	"growtuck/cmd/growtuck/internal/page"
	"growtuck/cmd/growtuck/internal/work"
)

func main() {
	h, err := handler()
	if err != nil {
		panic(err)
	}
	js.Global().Set("growtuckAnswer", js.FuncOf(func(_ js.Value, args []js.Value) any {
		r, err := request(args)
		return promise(func() (js.Value, error) {
			if err != nil {
				return js.Value{}, err
			}
			a := answer{status: http.StatusOK, header: make(http.Header)}
			h.ServeHTTP(&a, r)
			return a.value(), nil
		})
	}))
	js.Global().Call("growtuckReady")
	select {}
}

func handler() (http.Handler, error) {
	var tables work.Tables
	ref, err := tables.Reference()
	if err != nil {
		return nil, err
	}
	edition, err := tables.Edition()
	if err != nil {
		return nil, err
	}
	v, err := work.ReadVersion()
	if err != nil {
		return nil, err
	}
	e := page.Engine{Reference: ref, Version: v, Edition: edition.String(), Tables: tables.Load}
	return page.New(e, page.Options{Loopback: true, Log: func(s string) { js.Global().Get("console").Call("error", s) }})
}

// request is the request that the worker passes on. Its host stands for nobody's:
// the browser gives the worker its own origin's requests only.
func request(args []js.Value) (*http.Request, error) {
	body := make([]byte, args[3].Length())
	js.CopyBytesToGo(body, args[3])
	r, err := http.NewRequest(args[0].String(), "http://localhost"+args[1].String(), bytes.NewReader(body))
	if err == nil {
		r.RequestURI = args[1].String()
		for _, name := range []string{"Content-Type", "Growtuck-Shown"} {
			if v := args[2].Call("get", name); v.Type() == js.TypeString {
				r.Header.Set(name, v.String())
			}
		}
	}
	return r, err
}

// promise runs f while the browser goes on.
func promise(f func() (js.Value, error)) js.Value {
	var start js.Func
	start = js.FuncOf(func(_ js.Value, settle []js.Value) any {
		start.Release()
		go func() {
			v, err := f()
			if err != nil {
				settle[1].Invoke(js.Global().Get("Error").New(err.Error()))
				return
			}
			settle[0].Invoke(v)
		}()
		return nil
	})
	return js.Global().Get("Promise").New(start)
}

// An answer takes what a handler writes.
type answer struct {
	status int
	header http.Header
	body   bytes.Buffer
}

func (a *answer) Header() http.Header         { return a.header }
func (a *answer) WriteHeader(status int)      { a.status = status }
func (a *answer) Write(p []byte) (int, error) { return a.body.Write(p) }

// value is the answer as the worker takes it.
func (a *answer) value() js.Value {
	headers := js.Global().Get("Array").New()
	for name, values := range a.header {
		for _, v := range values {
			headers.Call("push", js.Global().Get("Array").Call("of", name, v))
		}
	}
	body := js.Global().Get("Uint8Array").New(a.body.Len())
	js.CopyBytesToJS(body, a.body.Bytes())
	return js.ValueOf(map[string]any{"status": a.status, "headers": headers, "body": body})
}
