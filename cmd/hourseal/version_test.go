package main

import (
	"runtime/debug"
	"testing"
)

func TestVersion(t *testing.T) {
	const revision = "0123456789abcdef0123456789abcdef01234567"
	set := func(key, value string) debug.BuildSetting { return debug.BuildSetting{Key: key, Value: value} }
	for want, info := range map[string]debug.BuildInfo{
		"hourseal v1.2.3 (revision 0123456789ab, go1.26.0)": {GoVersion: "go1.26.0", Main: debug.Module{Version: "v1.2.3"},
			Settings: []debug.BuildSetting{set("vcs.revision", revision), set("vcs.modified", "false")}},
		"hourseal of no version (revision 0123456789ab, modified, go1.26.0)": {GoVersion: "go1.26.0", Main: debug.Module{Version: "(devel)"},
			Settings: []debug.BuildSetting{set("vcs.revision", revision), set("vcs.modified", "true")}},
		"hourseal of no version (revision not known, go1.26.0)": {GoVersion: "go1.26.0"},
	} {
		if got := versionOf(&info); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
