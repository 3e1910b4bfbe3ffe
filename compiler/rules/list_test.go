package rules

import (
	"reflect"
	"slices"
	"testing"
)

// No rule is forgotten in the list, and codes are in order.
func TestEveryRuleIsListed(t *testing.T) {
	listed := map[string]bool{}
	for _, r := range all() {
		listed[string(r.Info.Code)] = true
	}
	if !slices.IsSortedFunc(all(), func(a, b Rule) int { return slices.Compare([]byte(a.Info.Code), []byte(b.Info.Code)) }) {
		t.Error("the list of rules is not in the order of their codes")
	}
	v := reflect.ValueOf(catalogue{})
	for i := range v.NumMethod() {
		made, ok := v.Method(i).Interface().(func() Rule)
		if !ok {
			t.Errorf("the method %s returns no rule", v.Type().Method(i).Name)
		} else if code := string(made().Info.Code); !listed[code] {
			t.Errorf("the rule %s, %s, is not in the list of rules.go", code, v.Type().Method(i).Name)
		}
	}
	if len(all()) != v.NumMethod() || len(listed) != len(all()) {
		t.Errorf("%d rules are listed under %d codes, and there are %d", len(all()), len(listed), v.NumMethod())
	}
}
