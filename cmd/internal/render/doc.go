// Package render shows problems: as text for people ([Text]), as JSON for other
// programs ([JSON]) and as SARIF 2.1.0 for code hosts and editors ([SARIF]).
// All three are renderings of the same [problem.Problem] and decide nothing.
//
// Text from a pattern is never trusted: control characters and marks that
// reverse the reading direction are replaced before they reach a terminal.
package render
