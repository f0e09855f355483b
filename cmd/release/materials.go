package main

import (
	"crypto/sha256"
	"debug/buildinfo"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"strings"
)

// The parts of an SPDX 2.3 document that are used here (ISO/IEC 5962:2021 and its
// later edition at spdx.github.io/spdx-spec/v2.3).
type spdxDocument struct {
	Version       string             `json:"spdxVersion"`
	DataLicense   string             `json:"dataLicense"`
	ID            string             `json:"SPDXID"`
	Name          string             `json:"name"`
	Namespace     string             `json:"documentNamespace"`
	Created       spdxCreation       `json:"creationInfo"`
	Packages      []spdxPackage      `json:"packages"`
	Relationships []spdxRelationship `json:"relationships"`
}

type spdxCreation struct {
	Created  string   `json:"created"`
	Creators []string `json:"creators"`
}

type spdxPackage struct {
	ID        string    `json:"SPDXID"`
	Name      string    `json:"name"`
	Version   string    `json:"versionInfo"`
	Download  string    `json:"downloadLocation"`
	Analyzed  bool      `json:"filesAnalyzed"`
	Concluded string    `json:"licenseConcluded"`
	Declared  string    `json:"licenseDeclared"`
	Copyright string    `json:"copyrightText"`
	Comment   string    `json:"comment,omitempty"`
	Refs      []spdxRef `json:"externalRefs,omitempty"`
}

type spdxRef struct {
	Category string `json:"referenceCategory"`
	Type     string `json:"referenceType"`
	Locator  string `json:"referenceLocator"`
}

type spdxRelationship struct {
	From string `json:"spdxElementId"`
	Type string `json:"relationshipType"`
	To   string `json:"relatedSpdxElement"`
}

// billOfMaterials lists what a program is built of, as it says itself, with the
// licences of its notices.
func billOfMaterials(program, version string) ([]byte, error) {
	info, err := buildinfo.ReadFile(program)
	if err != nil {
		return nil, err
	}
	notices, err := os.ReadFile("cmd/growtuck/NOTICES")
	if err != nil {
		return nil, err
	}
	d := spdxDocument{Version: "SPDX-2.3", DataLicense: "CC0-1.0", ID: "SPDXRef-DOCUMENT", Name: "growtuck " + version,
		Created: spdxCreation{made.Format("2006-01-02T15:04:05Z"), []string{"Tool: growtuck release"}}}
	const own = "SPDXRef-growtuck"
	d.Packages = []spdxPackage{{ID: own, Name: "growtuck", Version: version, Download: "NOASSERTION", Concluded: "MIT AND CC0-1.0", Declared: "MIT AND CC0-1.0", Copyright: "NOASSERTION"}}
	d.Relationships = []spdxRelationship{{d.ID, "DESCRIBES", own}}
	add := func(p spdxPackage) error {
		licence := licenceOf(string(notices), p.Name)
		if licence == "" {
			return fmt.Errorf("NOTICES has no licence that is known for %s", p.Name)
		}
		p.ID = "SPDXRef-" + regexp.MustCompile(`[^A-Za-z0-9.-]+`).ReplaceAllString(p.Name, "-")
		p.Concluded, p.Declared, p.Copyright = licence, licence, "NOASSERTION"
		d.Packages = append(d.Packages, p)
		d.Relationships = append(d.Relationships, spdxRelationship{own, "DEPENDS_ON", p.ID})
		return nil
	}
	if err := add(spdxPackage{Name: "Go standard library and runtime", Version: strings.TrimPrefix(info.GoVersion, "go"), Download: "https://go.dev/dl/"}); err != nil {
		return nil, err
	}
	for _, m := range info.Deps {
		purl := "pkg:golang/" + m.Path + "@" + m.Version
		if err := add(spdxPackage{Name: m.Path, Version: m.Version, Download: "https://proxy.golang.org/" + m.Path + "/@v/" + m.Version + ".zip",
			Comment: "go.sum has " + m.Sum, Refs: []spdxRef{{"PACKAGE-MANAGER", "purl", purl}}}); err != nil {
			return nil, err
		}
	}
	listed, err := json.Marshal(d.Packages)
	if err != nil {
		return nil, err
	}
	d.Namespace = fmt.Sprintf("https://spdx.org/spdxdocs/growtuck-%x", sha256.Sum256(listed))
	out, err := json.MarshalIndent(d, "", "  ")
	return append(out, '\n'), err
}

// licenceOf is the SPDX name of the licence under which the notices list a module.
func licenceOf(notices, module string) string {
	const ruler = "\n------------------------------------------------------------------------\n"
	parts := strings.Split(notices, ruler)
	for i := 1; i+1 < len(parts); i += 2 {
		for line := range strings.Lines(parts[i]) {
			if name, _, _ := strings.Cut(strings.TrimSpace(line), " v"); name != module {
				continue
			}
			text := parts[i+1]
			switch {
			case strings.Contains(text, "Apache License"):
				return "Apache-2.0"
			case strings.Contains(text, "Redistribution and use") && strings.Contains(text, "Neither the name"):
				return "BSD-3-Clause"
			case strings.Contains(text, "Redistribution and use"):
				return "BSD-2-Clause"
			case strings.Contains(text, "Permission is hereby granted"):
				return "MIT"
			}
		}
	}
	return ""
}
