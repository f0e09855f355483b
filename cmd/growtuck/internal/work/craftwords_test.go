package work_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// The words that only one of the crafts has. Spare yarn, stitches and rows are of both.
var (
	ofKnitting = regexp.MustCompile(`(?i)\b(knit\w*|purl\w*|needles?|cast[- ]on|cast off|bind off|bind-off|k\d+|p\d+|k2tog|p2tog|ssk|kfb|M1\w?|St st|stockinette|garter|graft\w*|magic loop|on hold|yo)\b`)
	ofCrochet  = regexp.MustCompile(`(?i)\b(crochet\w*|hook|chains?|ch|sc|hdc|dc|tr|htr|sl st|ss|sc2tog|dc2tog|htr2tog|tr2tog|BLO|magic ring|turning chain|fasten off)\b`)
	// A needle sews in both crafts.
	sewing = strings.NewReplacer("tapestry needle", "", "Tapestry needle", "", "sewing needle", "")
)

// A pattern for crochet has no word of knitting, and the other way round.
func TestCraftsKeepToTheirWords(t *testing.T) {
	var out faultList
	for _, s := range sampled(t, howMany()) {
		doc := s.doc
		var texts []string
		for _, x := range doc.Sections {
			texts = append(texts, x.Name)
			for _, step := range x.Steps {
				texts = append(texts, step.Text)
			}
		}
		texts = append(texts, doc.Notes...)
		foreign := ofCrochet
		if doc.Craft == "crochet" {
			foreign = ofKnitting
		}
		for _, text := range texts {
			if word := foreign.FindString(sewing.Replace(text)); word != "" {
				out.add(s, fmt.Sprintf("a %s pattern says %q\n%s", doc.Craft, word, text))
			}
		}
	}
	out.none(t)
}
