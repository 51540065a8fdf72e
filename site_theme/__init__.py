"""The look of the site: templates, styles, scripts. A package, so that an installed copy finds it."""
