"""Every finding that the checks' own tests meet keeps to what findings keep to."""

from tests.findings.held import held as held
