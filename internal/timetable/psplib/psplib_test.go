package psplib_test

import (
	"os"
	"strings"
	"testing"

	"kettlefrost/internal/timetable/psplib"
)

const small = `************************************************************************
file with basedata            : small.bas
jobs (incl. supersource/sink ):  4
horizon                       :  9
RESOURCES
  - renewable                 :  2   R
  - nonrenewable              :  0   N
  - doubly constrained        :  0   D
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           4
   4        1          0
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     6       1    0
  3      1     3       0    4
  4      1     0       0    0
RESOURCEAVAILABILITIES:
  R 1  R 2
    2    5
`

func TestReadSmall(t *testing.T) {
	p, err := psplib.Read(strings.NewReader(small))
	if err != nil {
		t.Fatal(err)
	}
	if p.Horizon != 9 || len(p.Tasks) != 4 || len(p.Resources) != 2 || p.Resources[1].Capacity[0].Amount != 5 {
		t.Errorf("%+v", p)
	}
	if b := p.Tasks[2]; b.Duration != 3 || b.Latest != -1 || len(b.Uses) != 1 || b.Uses[0].Resource != 1 || b.Uses[0].Amount != 4 || b.Uses[0].To != 3 {
		t.Errorf("%+v", b)
	}
	if l := p.Lags; len(l) != 4 || l[2].From != 1 || l[2].To != 3 || l[2].Min != 6 {
		t.Errorf("%+v", l)
	}
}

// TestReadPublished: what the head and the last lines of the published file j301_5.sm say.
func TestReadPublished(t *testing.T) {
	f, err := os.Open("../testdata/psplib/j301_5.sm")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	p, err := psplib.Read(f)
	if err != nil || len(p.Tasks) != 32 || len(p.Resources) != 4 {
		t.Errorf("%d tasks, %d resources, %v; want 32 and 4", len(p.Tasks), len(p.Resources), err)
	}
}

func TestBrokenFiles(t *testing.T) {
	for _, c := range []struct{ name, from, to, want string }{
		{"no jobs", "jobs (incl. supersource/sink ):  4", "", "there is no job 1"},
		{"a huge number of jobs", "sink ):  4", "sink ):  4000000", `line 3: jobs (incl. supersource/sink ): "4000000": want 0 to 10000`},
		{"jobs twice", "horizon                       :  9", "jobs (incl. supersource/sink ):  4", "line 4: the number of jobs stands there twice"},
		{"other resources", "nonrenewable              :  0", "nonrenewable              :  2", "line 7: nonrenewable resources are not supported"},
		{"two modes", "   2        1          1", "   2        2          1", "line 12: job 2 has 2 modes"},
		{"one successor too few", "2           2   3", "2           2", "line 11: job 1: 2 successors announced, 1 listed"},
		{"unknown successor", "1           4", "1           5", "line 12: job 2: there is no successor 5"},
		{"a demand too many", "6       1    0", "6       1    0    0", "line 19: job 2: 3 demands for 2 resources"},
		{"job listed twice", "  3      1     3", "  2      1     3", "line 20: the duration of job 2 stands there twice"},
		{"more than there is", "6       1    0", "6       3    0", "needs 3"},
		{"cut off", "RESOURCEAVAILABILITIES:\n  R 1  R 2\n    2    5\n", "", "no capacities"},
		{"a job left out", "  3      1     3       0    4\n", "", "job 3: no duration"},
	} {
		t.Run(c.name, func(t *testing.T) {
			broken := strings.Replace(small, c.from, c.to, 1)
			if broken == small {
				t.Fatal("nothing replaced")
			}
			if _, err := psplib.Read(strings.NewReader(broken)); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v; want %q", err, c.want)
			}
		})
	}
}

// FuzzRead: whatever is read is a valid problem with no task without a duration.
func FuzzRead(f *testing.F) {
	f.Add(small)
	f.Add(strings.Replace(small, ":  4", ":  40", 1))
	f.Add("jobs (incl. supersource/sink ): 0\nPRECEDENCE RELATIONS:\n")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := psplib.Read(strings.NewReader(text))
		if err != nil {
			return
		}
		if err := p.Validate(); err != nil {
			t.Errorf("read without an error, but %v", err)
		}
		if len(p.Tasks) == 0 {
			t.Error("read no jobs and no error")
		}
	})
}
