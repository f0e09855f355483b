package work

import (
	"encoding/json"
	"io/fs"
	"runtime/debug"

	"growtuck/cmd/growtuck/internal/tell"
	"growtuck/data"
)

// ReadVersion reads what the build and the tables say of themselves.
func ReadVersion() (tell.Version, error) {
	v := tell.Version{Program: "unknown"}
	if info, ok := debug.ReadBuildInfo(); ok {
		v.Program, v.Go = info.Main.Version, info.GoVersion
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				v.Revision = s.Value + v.Revision
			case s.Key == "vcs.modified" && s.Value == "true":
				v.Revision += ", changed"
			}
		}
	}
	text, err := fs.ReadFile(data.Embedded(), "datapackage.json")
	if err != nil {
		return v, err
	}
	var pkg struct {
		Version string `json:"version"`
	}
	if err := json.Unmarshal(text, &pkg); err != nil {
		return v, err
	}
	v.Tables = pkg.Version
	return v, nil
}
