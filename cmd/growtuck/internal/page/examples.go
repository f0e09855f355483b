package page

import (
	"context"
	"encoding/json"
	"net/url"
	"strings"
)

// An example is what is asked in the description of the API: parameters, and what is
// posted.
type example struct {
	params url.Values
	body   string
}

// query is the query of an example's address.
func (e example) query() string {
	if len(e.params) == 0 {
		return ""
	}
	return "?" + e.params.Encode()
}

// A tall, slim child of nine, whose cardigan has the widths of one size and the lengths
// of another.
var (
	sizeExample      = example{params: url.Values{"size": {"5.5"}, "only": {"chest", "arm_length"}}}
	profileExample   = example{params: url.Values{"set": {"chest=61cm", "arm_length=47.5cm"}}}
	bodyExample      = example{params: url.Values{"set": {"height=141cm", "chest=61cm"}, "only": {"waist", "arm_length"}}}
	measuringExample = example{params: url.Values{"sex": {"f"}, "age": {"4"}}}
	garmentExample   = example{params: url.Values{"garment": {"cardigan"}, "set": {"height=141cm", "chest=61cm", "arm_length=47.5cm"}, "widths": {"6"}, "lengths": {"10"}, "layer": {"indoor"}, "growth": {"1"}}}
	planExample      = example{params: url.Values{"garment": {"hat"}, "size": {"6"}, "craft": {"knit"}, "gauge": {"20x28/10cm"}}}
	batchExample     = example{params: url.Values{"want": {"chest", "arm_length"}}, body: choir}
	orderExample     = example{params: url.Values{"sizes": {"6", "8", "10"}, "by": {"chest", "arm_length"}}, body: choir}
)

// choir is a list of three children of a choir.
const choir = "name,sex,age,height,chest\nInes,f,9.25,141,61\nOtto,m,7,124,63.5\nAda,f,8.5,131,64\n"

const draftExample = "field,part,value,unit,note\ngarment,,pullover,,\nfit,,classic,,\nlayer,,skin,,\nsize,,6,,\ncraft,,knit,,\n" +
	"stitch_gauge,,20,10 cm,\nrow_gauge,,28,10 cm,\nfinished,chest,110,stitches,\n"

const rowsExample = "chart,size,sex,measurement,statistic,value,unit,source,where,basis,review,note\ncraft,4,both,chest,given,68,cm,craft-2018,p. 1,published,one reader,\n"

// exampleAnswer is the answer to a question's example; nil where it is bytes, or where
// the description itself lists the questions.
func (s *site) exampleAnswer(q question) (any, error) {
	binary := q.answer == nil && !strings.HasPrefix(q.media, "text/") && q.media != mediaSVG
	if binary {
		return nil, nil
	}
	out, err := s.ask(context.Background(), q, q.example.params, []byte(q.example.body))
	switch {
	case err != nil:
		return nil, err
	case q.media != mediaJSON:
		return string(out), nil
	}
	return json.RawMessage(s.editioned(q, out)), nil
}
