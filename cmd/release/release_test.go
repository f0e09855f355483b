package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"encoding/json"
	"io"
	"testing"

	"github.com/stretchr/testify/require"
)

// An archive has every file with its content and mode, and the same bytes whatever
// order the files come in.
func TestArchives(t *testing.T) {
	files := []file{{"a/program", []byte("\x7fELF"), true}, {"a/README.md", []byte("text\n"), false}}
	turned := []file{files[1], files[0]}
	for name, pack := range map[string]func([]file) ([]byte, error){"tar": tarGz, "zip": zipped} {
		one, err := pack(files)
		require.NoError(t, err)
		two, err := pack(turned)
		require.NoError(t, err)
		require.Equal(t, one, two, name)
		found := map[string]string{}
		if name == "tar" {
			z, err := gzip.NewReader(bytes.NewReader(one))
			require.NoError(t, err)
			for r := tar.NewReader(z); ; {
				h, err := r.Next()
				if err == io.EOF {
					break
				}
				require.NoError(t, err)
				content, err := io.ReadAll(r)
				require.NoError(t, err)
				found[h.Name+" "+h.FileInfo().Mode().String()] = string(content)
			}
		} else {
			r, err := zip.NewReader(bytes.NewReader(one), int64(len(one)))
			require.NoError(t, err)
			for _, f := range r.File {
				in, err := f.Open()
				require.NoError(t, err)
				content, err := io.ReadAll(in)
				require.NoError(t, err)
				found["a/"+f.FileInfo().Name()+" "+f.Mode().String()] = string(content)
			}
		}
		require.Equal(t, map[string]string{"a/program -rwxr-xr-x": "\x7fELF", "a/README.md -rw-r--r--": "text\n"}, found, name)
	}
}

// The bill of materials names every module that the program says it is built of, with
// the licence that the notices give it. SPDX 2.3, clauses 6 and 7: the fields that a
// document and a package must have.
func TestBillOfMaterials(t *testing.T) {
	t.Chdir("../..")
	program := t.TempDir() + "/growtuck"
	require.NoError(t, build(program, targets[0]))
	bill, err := billOfMaterials(program, "test")
	require.NoError(t, err)
	var d struct {
		SPDXVersion, DataLicense, SPDXID, Name, DocumentNamespace string
		CreationInfo                                              struct{ Created, Creators any }
		Packages                                                  []map[string]any
		Relationships                                             []map[string]string
	}
	require.NoError(t, json.Unmarshal(bill, &d))
	require.Equal(t, []string{"SPDX-2.3", "CC0-1.0", "SPDXRef-DOCUMENT", "growtuck test"}, []string{d.SPDXVersion, d.DataLicense, d.SPDXID, d.Name})
	require.NotEmpty(t, d.DocumentNamespace)
	require.NotNil(t, d.CreationInfo.Created)
	require.NotNil(t, d.CreationInfo.Creators)
	licences, ids := map[string]string{}, map[string]bool{}
	for _, p := range d.Packages {
		for _, field := range []string{"SPDXID", "name", "versionInfo", "downloadLocation", "licenseConcluded", "licenseDeclared", "copyrightText"} {
			require.NotEmpty(t, p[field], "%v", p)
		}
		require.False(t, ids[p["SPDXID"].(string)], "%v", p)
		ids[p["SPDXID"].(string)] = true
		licences[p["name"].(string)] = p["licenseConcluded"].(string)
	}
	for name, licence := range map[string]string{"github.com/xuri/excelize/v2": "BSD-3-Clause", "github.com/spf13/cobra": "Apache-2.0", "github.com/go-playground/validator/v10": "MIT", "golang.org/x/text": "BSD-3-Clause", "Go standard library and runtime": "BSD-3-Clause"} {
		require.Equal(t, licence, licences[name], name)
	}
	for _, r := range d.Relationships {
		require.True(t, ids[r["relatedSpdxElement"]], "%v", r)
	}
}
