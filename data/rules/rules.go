// Package rules checks rows by their struct tags, in the words of package validator.
// It is apart from package data so that who looks a figure up does not link it.
package rules

import (
	"errors"
	"reflect"

	"github.com/go-playground/validator/v10"
)

// New makes a validator of row types, which names fields by their columns. Forms are
// the tags of our own, for texts.
func New(forms map[string]func(string) bool) *validator.Validate {
	v := validator.New(validator.WithRequiredStructEnabled())
	v.RegisterTagNameFunc(func(f reflect.StructField) string { return f.Tag.Get("csv") })
	for tag, is := range forms {
		// The error can only be an empty tag or a nil function.
		_ = v.RegisterValidation(tag, func(f validator.FieldLevel) bool { return is(f.Field().String()) })
	}
	return v
}

// Rows is the check that data.Tables.Check asks for: it tells each tag of a row that
// is broken, by its column.
func Rows(forms map[string]func(string) bool) func(row any, broken func(column string, value any, tag, param string)) {
	v := New(forms)
	return func(row any, broken func(column string, value any, tag, param string)) {
		var faults validator.ValidationErrors
		errors.As(v.Struct(row), &faults)
		for _, f := range faults {
			broken(f.Field(), f.Value(), f.Tag(), f.Param())
		}
	}
}
