package show

import (
	"strings"

	"puffproof/limits"
	"puffproof/limits/finding"
)

// NotBefore says what has to be mended before anybody fills a launcher; "" nothing. What is not known counts as not mended.
func NotBefore(r *limits.Report) string { return notBefore(r.BeforeAir()) }

// NotCharged says what has to be mended before anybody fills a launcher to try or to shoot it; "" nothing. It has all that NotBefore
// has.
func NotCharged(r *limits.Report) string { return notBefore(r.BeforeCharging()) }

func notBefore(stop []finding.Verdict) string {
	done := "mended"
	if len(stop) == 0 {
		return ""
	}
	titles := make([]string, len(stop))
	for i, v := range stop {
		titles[i] = v.Title
		if v.Status == finding.Unknown {
			done = "mended and known"
		}
	}
	return "Not before this is " + done + ": " + strings.Join(titles, "; ")
}
