package cli

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"kettlefrost/internal/plan"
)

// versionCommand says what this is.
type versionCommand struct {
	JSON bool `name:"json" help:"As JSON (kettlefrost.version/1)."`
}

// Version is what a report of a fault should hold.
type Version struct {
	Schema   string `json:"schema"`
	Version  string `json:"version"`            // of the module; (devel) when built from a working tree
	Revision string `json:"revision,omitempty"` // of the source, when the build knows it
	Changed  bool   `json:"changed,omitempty"`  // the source was changed after that revision
	Go       string `json:"go"`
	Plan     string `json:"plan_schema"`
}

func (c versionCommand) Run(s *surroundings) error {
	v := Version{Schema: versionSchema, Version: "unknown", Go: runtime.Version(), Plan: plan.Schema}
	if info, ok := debug.ReadBuildInfo(); ok {
		v.Version = info.Main.Version
		for _, setting := range info.Settings {
			switch setting.Key {
			case "vcs.revision":
				v.Revision = setting.Value
			case "vcs.modified":
				v.Changed = setting.Value == "true"
			}
		}
	}
	if c.JSON {
		return s.showJSON(v)
	}
	text := "kettlefrost " + v.Version
	if v.Revision != "" {
		text += " " + v.Revision
	}
	if v.Changed {
		text += " (changed)"
	}
	return s.show(fmt.Sprintf("%s, %s, plans as %s\n", text, v.Go, v.Plan))
}
