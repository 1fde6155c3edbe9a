"""A project with some fields changed: what if this were typed instead?"""

from collections.abc import Mapping

from framecalc.project import Project, project_document, read_project, set_value


def project_with(project: Project, changes: Mapping[str, str]) -> Project:
    """The project with texts put at paths.

    Raises:
        FrameCalcError: the changed document is no project.
    """
    document = project_document(project)
    for path, text in changes.items():
        set_value(document, path, text)
    return read_project(document)
