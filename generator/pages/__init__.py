"""Everything computed -> the pages of a site, as values and rendered bodies. Knows no site engine.

`compose_site(computed)` returns a `Site`: pages under opaque addresses, data files, and who may see each.
"""

from generator.pages.compose import compose_site
from generator.pages.gather import gather_parts
from generator.pages.site import Audience, Site, SiteFile, SitePage

__all__ = ["Audience", "Site", "SiteFile", "SitePage", "compose_site", "gather_parts"]
