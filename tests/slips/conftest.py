"""Every finding that the tests of slips meet keeps to what findings keep to."""

from tests.findings.held import held as held
